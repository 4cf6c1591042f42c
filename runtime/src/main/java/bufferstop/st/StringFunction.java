package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/** A function that gives a STRING, in cells of its own. */
final class StringFunction extends Expression {
  private final String method; // of Strings
  private final List<Expression> inputs;
  private final Symbol memory;
  private final int capacity;

  /**
   * A function.
   *
   * @param method LEFT, RIGHT, MID or CONCAT in lower case; or truth, signed, unsigned
   * @param memory the first of the cells for the result
   * @param capacity most bytes of the result
   */
  StringFunction(
      String method, List<Expression> inputs, Symbol memory, int capacity, SourceText source) {
    super(Type.STRING, source);
    this.method = method;
    this.inputs = List.copyOf(inputs);
    this.memory = memory;
    this.capacity = capacity;
  }

  @Override
  int capacity() {
    return capacity;
  }

  @Override
  long bits(long[] cells, int at) {
    long a = inputs.get(0).bits(cells, at);
    long b = inputs.size() > 1 ? inputs.get(1).bits(cells, at) : 0;
    long c = inputs.size() > 2 ? inputs.get(2).bits(cells, at) : 0;
    int into = Read.cell(memory, at);
    return switch (method) {
      case "left" -> Strings.left(a, b, into, capacity, cells, place());
      case "right" -> Strings.right(a, b, into, capacity, cells, place());
      case "mid" -> Strings.mid(a, b, c, into, capacity, cells, place());
      case "concat" -> Strings.concat(a, b, into, capacity, cells, place());
      case "truth" -> Strings.truth(a, into, capacity, cells, place());
      case "signed" -> Strings.signed(a, into, capacity, cells, place());
      default -> Strings.unsigned(a, into, capacity, cells, place());
    };
  }

  @Override
  boolean failsItself() {
    return List.of("left", "right", "mid").contains(method);
  }

  @Override
  List<Expression> operands() {
    return inputs;
  }

  /** It writes cells, so that it cannot be worked out without any. */
  @Override
  boolean readsAnything() {
    return true;
  }

  @Override
  int ownBytes() {
    return 20;
  }

  @Override
  void emit(Code code) {
    inputs.forEach(code::put);
    code.cell(memory);
    code.push(capacity);
    code.place(place());
    code.call(Strings.class, method, "(" + "J".repeat(inputs.size()) + "II[JI)J");
  }
}
