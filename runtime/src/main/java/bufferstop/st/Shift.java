package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.List;

/**
 * SHL, SHR, ROL, ROR of a bit string by N places. Source: IEC 61131-3:2003, Table 25 [from memory,
 * not re-read]. Shifts fill with zeros, so that N of the size or more leaves none of the bits; N
 * below 0 is an error.
 */
final class Shift extends Expression {
  private final String name;
  private final Expression operand;
  private final Expression count;

  Shift(String name, Expression operand, Expression count, SourceText source) {
    super(operand.type(), source);
    this.name = name;
    this.operand = operand;
    this.count = count;
  }

  @Override
  long bits(long[] cells, int at) {
    long bits = operand.bits(cells, at);
    long by = count.bits(cells, at);
    int size = type().bits();
    return switch (name) {
      case "SHL" -> left(bits, by, size, cells, place());
      case "SHR" -> right(bits, by, size, cells, place());
      case "ROL" -> roundLeft(bits, by, size, cells, place());
      default -> roundRight(bits, by, size, cells, place());
    };
  }

  static long left(long bits, long by, int size, long[] cells, int place) {
    if (by < 0) {
      return Faults.raise(cells, place);
    }
    return by >= size ? 0 : cut(bits << by, size);
  }

  static long right(long bits, long by, int size, long[] cells, int place) {
    if (by < 0) {
      return Faults.raise(cells, place);
    }
    return by >= size ? 0 : bits >>> by;
  }

  static long roundLeft(long bits, long by, int size, long[] cells, int place) {
    return by < 0 ? Faults.raise(cells, place) : rolled(bits, (int) (by % size), size);
  }

  static long roundRight(long bits, long by, int size, long[] cells, int place) {
    return by < 0 ? Faults.raise(cells, place) : rolled(bits, (int) (size - by % size), size);
  }

  /** Rolled to the left by 0 to {@code size} places. */
  private static long rolled(long bits, int by, int size) {
    return by % size == 0 ? bits : cut(bits << by, size) | bits >>> size - by;
  }

  private static long cut(long bits, int size) {
    int unused = Long.SIZE - size;
    return bits << unused >>> unused;
  }

  @Override
  boolean failsItself() {
    return count.constant() == null || count.constant() < 0;
  }

  @Override
  List<Expression> operands() {
    return List.of(operand, count);
  }

  @Override
  int ownBytes() {
    return 16;
  }

  @Override
  void emit(Code code) {
    code.put(operand);
    code.put(count);
    code.push(type().bits());
    code.place(place());
    String method =
        switch (name) {
          case "SHL" -> "left";
          case "SHR" -> "right";
          case "ROL" -> "roundLeft";
          default -> "roundRight";
        };
    code.call(Shift.class, method, "(JJI[JI)J");
  }
}
