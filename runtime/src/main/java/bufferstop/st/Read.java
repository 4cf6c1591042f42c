package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import java.util.List;

/** The value of a name. */
final class Read extends Expression {
  private final Symbol symbol;
  private final int index;

  Read(Symbol symbol, SourceText source) {
    super(symbol.type(), source);
    this.symbol = symbol;
    this.index = symbol.index();
  }

  @Override
  public long bits(long[] cells) {
    return cells[index];
  }

  @Override
  List<Expression> operands() {
    return List.of();
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
