package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.objectweb.asm.Opcodes;

/** Compares two STRINGs byte by byte; the shorter of two that begin alike is less. */
final class StringComparison extends TwoOperands {

  StringComparison(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, operator, left, right, source);
  }

  @Override
  long bits(long[] cells, int at) {
    return operator.holds(order(cells, at)) ? 1 : 0;
  }

  private int order(long[] cells, int at) {
    if (left.text() != null && right.text() != null) {
      return left.text().compareTo(right.text());
    }
    if (left.text() != null) {
      return -Strings.compare(right.bits(cells, at), left.text(), cells);
    }
    long a = left.bits(cells, at);
    return right.text() == null
        ? Strings.compare(a, right.bits(cells, at), cells)
        : Strings.compare(a, right.text(), cells);
  }

  @Override
  int ownBytes() {
    return 28;
  }

  @Override
  void emit(Code code) {
    emitOrder(code);
    code.truthOf(operator);
  }

  private void emitOrder(Code code) {
    String withText = "(JLjava/lang/String;[J)I";
    if (left.text() != null && right.text() != null) {
      code.push(Integer.signum(left.text().compareTo(right.text())));
    } else if (left.text() != null) {
      code.put(right);
      code.push(left.text());
      code.cells();
      code.call(Strings.class, "compare", withText);
      code.op(Opcodes.INEG);
    } else if (right.text() != null) {
      code.put(left);
      code.push(right.text());
      code.cells();
      code.call(Strings.class, "compare", withText);
    } else {
      putBoth(code);
      code.cells();
      code.call(Strings.class, "compare", "(JJ[J)I");
    }
  }
}
