package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import java.util.List;

/** The value of a name. */
final class Read extends Expression {
  private final Symbol symbol;

  Read(Symbol symbol, SourceText source) {
    super(symbol.type(), source);
    this.symbol = symbol;
  }

  /**
   * The cell of a symbol.
   *
   * @param at first cell of the instance whose body runs
   */
  static int cell(Symbol symbol, int at) {
    return symbol.kind() == Symbol.Kind.LOCAL ? at + symbol.index() : symbol.index();
  }

  @Override
  long bits(long[] cells, int at) {
    return cells[cell(symbol, at)];
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }

  @Override
  int ownBytes() {
    return 7;
  }

  @Override
  void emit(Code code) {
    code.load(symbol);
  }

  @Override
  void collectReads(List<Symbol> found) {
    if (!found.contains(symbol)) {
      found.add(symbol);
    }
  }

  @Override
  boolean readsAnything() {
    return true;
  }
}
