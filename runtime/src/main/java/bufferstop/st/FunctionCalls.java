package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.BlockType.Pin;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Types calls of users' functions: inputs in order, or by name in any order. */
final class FunctionCalls {
  private final Typing typing;

  FunctionCalls(Typing typing) {
    this.typing = typing;
  }

  /** The typed call, or null after a diagnostic. */
  Expression type(Syntax.Call call, UserFunction function) {
    List<Pin> pins = function.inputs();
    Expression[] given = new Expression[pins.size()];
    boolean named = call.inputs().stream().anyMatch(Syntax.Named.class::isInstance);
    boolean right = named ? byName(call, function, given) : inOrder(call, function, given);
    typing.called(function, nameOf(call));
    if (!right) {
      return null;
    }
    for (int i = 0; i < given.length; i++) {
      if (given[i] == null) {
        given[i] = otherwise(pins.get(i), call);
      }
    }
    if (Arrays.asList(given).contains(null)) {
      return null;
    }
    Symbol memory = null;
    if (function.type() == Type.STRING) {
      memory = typing.memory(function.result().length(), call);
      if (memory == null) {
        return null;
      }
    }
    return new FunctionCall(function, Arrays.asList(given), memory, typing.source(call));
  }

  /** The value of an input that is left out; null after a diagnostic. */
  private Expression otherwise(Pin pin, Syntax.Call call) {
    SourceText source = typing.source(call);
    if (pin.type() != Type.STRING) {
      return new Constant(pin.type(), pin.of().enumeration(), pin.initial().get(0), source);
    }
    long[] cells = pin.initial().stream().mapToLong(Long::longValue).toArray();
    return typing.inMemory(new StringLiteral(StringCells.unpack(cells, 0), source), call);
  }

  private Position nameOf(Syntax.Call call) {
    return typing.place(call.start(), call.nameEnd());
  }

  private boolean inOrder(Syntax.Call call, UserFunction function, Expression[] given) {
    List<Syntax> inputs = call.inputs();
    boolean right = true;
    for (int i = 0; i < inputs.size(); i++) {
      if (i < given.length) {
        given[i] = typing.given(inputs.get(i), function.inputs().get(i).of());
        right &= given[i] != null;
      } else {
        typing.type(inputs.get(i), null);
      }
    }
    int least = given.length;
    while (least > 0 && !function.inputs().get(least - 1).required()) {
      least--;
    }
    if (inputs.size() < least || inputs.size() > given.length) {
      String count = inputs.size() == 1 ? "1 input" : inputs.size() + " inputs";
      typing.wrong(
          Code.BAD_CALL, call, "`" + call.written() + "` has " + count, form(function), "");
      return false;
    }
    return right;
  }

  private boolean byName(Syntax.Call call, UserFunction function, Expression[] given) {
    boolean[] seen = new boolean[given.length];
    boolean right = true;
    for (Syntax input : call.inputs()) {
      if (input instanceof Syntax.Named named) {
        right &= named(named, function, given, seen);
      } else {
        typing.type(input, null);
        typing.wrong(
            Code.BAD_CALL,
            input,
            "an input without its name among named ones",
            form(function),
            "name all of them, or none");
        right = false;
      }
    }
    List<String> missing = new ArrayList<>();
    for (int i = 0; i < given.length; i++) {
      if (!seen[i] && function.inputs().get(i).required()) {
        missing.add("`" + function.inputs().get(i).name() + "`");
      }
    }
    if (right && !missing.isEmpty()) {
      String message = "`" + call.written() + "` needs the input " + String.join(", ", missing);
      typing.wrong(Code.BAD_CALL, nameOf(call), message, form(function), "");
    }
    return right && missing.isEmpty();
  }

  private boolean named(
      Syntax.Named input, UserFunction function, Expression[] given, boolean[] seen) {
    List<Pin> pins = function.inputs();
    Position name = typing.place(input.start(), input.nameEnd());
    int number =
        Pins.find(pins, input.name(), name, "`" + function.name() + "` has no input", typing);
    if (number < 0) {
      typing.type(input.value(), null);
      return false;
    }
    Expression value = typing.given(input.value(), pins.get(number).of());
    if (seen[number]) {
      String twice = "the input `" + pins.get(number).name() + "` is given twice";
      typing.wrong(Code.BAD_CALL, name, twice, "", "keep one of them");
      return false;
    }
    seen[number] = true;
    given[number] = value;
    return value != null;
  }

  /** How a function is called: {@code ramp(x, by)}. */
  static String form(UserFunction function) {
    List<String> pins = new ArrayList<>();
    for (Pin pin : function.inputs()) {
      pins.add(pin.required() ? pin.name() : "[" + pin.name() + "]");
    }
    return function.name() + "(" + String.join(", ", pins) + ")";
  }
}
