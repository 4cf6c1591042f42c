package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

/** Compares two STRINGs byte by byte; the shorter of two that begin alike is less. */
final class StringComparison extends TwoOperands {

  StringComparison(Operator operator, Expression left, Expression right, SourceText source) {
    super(Type.BOOL, operator, left, right, source);
  }

  @Override
  long bits(long[] cells, int at) {
    return holds(order(cells, at)) ? 1 : 0;
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

  private boolean holds(int order) {
    return switch (operator) {
      case LESS -> order < 0;
      case GREATER -> order > 0;
      case AT_MOST -> order <= 0;
      case AT_LEAST -> order >= 0;
      case EQUAL -> order == 0;
      default -> order != 0;
    };
  }

  @Override
  int ownBytes() {
    return 28;
  }

  @Override
  void emit(Code code) {
    Label isFalse = new Label();
    Label end = new Label();
    emitOrder(code);
    code.jump(unless(), isFalse);
    code.push(1L);
    code.jump(Opcodes.GOTO, end);
    code.label(isFalse);
    code.push(0L);
    code.label(end);
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

  private int unless() {
    return switch (operator) {
      case LESS -> Opcodes.IFGE;
      case GREATER -> Opcodes.IFLE;
      case AT_MOST -> Opcodes.IFGT;
      case AT_LEAST -> Opcodes.IFLT;
      case EQUAL -> Opcodes.IFNE;
      default -> Opcodes.IFEQ;
    };
  }
}
