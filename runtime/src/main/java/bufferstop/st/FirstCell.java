package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import java.util.List;
import org.objectweb.asm.Opcodes;

/** A value of several cells where it lies, a STRING or an array: its first cell. */
final class FirstCell extends Expression {
  private final Symbol symbol;

  FirstCell(Symbol symbol, SourceText source) {
    super(symbol.type(), source);
    this.symbol = symbol;
  }

  @Override
  int capacity() {
    return symbol.length();
  }

  @Override
  long bits(long[] cells, int at) {
    return Read.cell(symbol, at);
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }

  @Override
  boolean readsAnything() {
    return true;
  }

  @Override
  void collectReads(List<Symbol> found) {
    if (!found.contains(symbol)) {
      found.add(symbol);
    }
  }

  @Override
  int ownBytes() {
    return 6;
  }

  @Override
  void emit(Code code) {
    code.cell(symbol);
    code.op(Opcodes.I2L);
  }
}
