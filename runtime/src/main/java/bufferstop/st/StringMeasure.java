package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;

/** LEN, FIND, and the conversions from STRING to integers. */
final class StringMeasure extends Expression {
  private final String method; // of Strings
  private final List<Expression> inputs;

  /**
   * A function.
   *
   * @param method len, find or number
   */
  StringMeasure(String method, List<Expression> inputs, Type type, SourceText source) {
    super(type, source);
    this.method = method;
    this.inputs = List.copyOf(inputs);
  }

  @Override
  long bits(long[] cells, int at) {
    long a = inputs.get(0).bits(cells, at);
    return switch (method) {
      case "len" -> Strings.len(a, cells);
      case "find" -> Strings.find(a, inputs.get(1).bits(cells, at), cells);
      default -> Strings.number(a, type(), cells, place());
    };
  }

  @Override
  boolean failsItself() {
    return method.equals("number");
  }

  @Override
  List<Expression> operands() {
    return inputs;
  }

  @Override
  int ownBytes() {
    return 16;
  }

  @Override
  void emit(Code code) {
    inputs.forEach(code::put);
    switch (method) {
      case "len" -> emitCall(code, "(J[J)J");
      case "find" -> emitCall(code, "(JJ[J)J");
      default -> {
        code.push(type());
        code.place(place());
        code.call(Strings.class, method, "(JLbufferstop/model/Type;[JI)J");
      }
    }
  }

  private void emitCall(Code code, String descriptor) {
    code.cells();
    code.call(Strings.class, method, descriptor);
  }
}
