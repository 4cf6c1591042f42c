package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The functions of STRINGs. Source: IEC 61131-3:2003, 2.5.1.5.5, Table 29 [from memory, not
 * re-read].
 */
final class StringCalls {
  static final List<String> NAMES = List.of("LEN", "LEFT", "RIGHT", "MID", "CONCAT", "FIND");
  private static final int MOST_DIGITS = 20; // of a 64-bit integer, with its sign

  private final Typing typing;

  StringCalls(Typing typing) {
    this.typing = typing;
  }

  /** The inputs a function takes, as messages name them. */
  static String form(String name) {
    return switch (name) {
      case "LEN" -> "(IN)";
      case "LEFT", "RIGHT" -> "(IN, L)";
      case "MID" -> "(IN, L, P)";
      case "CONCAT" -> "(IN1, IN2, ...)";
      default -> "(IN1, IN2)";
    };
  }

  static int least(String name) {
    return name.equals("LEN") ? 1 : name.equals("MID") ? 3 : 2;
  }

  static int most(String name) {
    return name.equals("CONCAT") ? 16 : least(name);
  }

  /** The typed call, its number of inputs already checked; null after a diagnostic. */
  Expression type(Syntax.Call call) {
    boolean allStrings = call.name().equals("CONCAT") || call.name().equals("FIND");
    List<Expression> inputs = new ArrayList<>();
    for (Syntax input : call.inputs()) {
      inputs.add(inputs.isEmpty() || allStrings ? string(input) : integer(input));
    }
    if (inputs.contains(null)) {
      return null;
    }
    SourceText source = typing.source(call);
    return switch (call.name()) {
      case "LEN" -> new StringMeasure("len", inputs, Type.INT, source);
      case "FIND" -> new StringMeasure("find", inputs, Type.INT, source);
      case "CONCAT" -> joined(call, inputs, source);
      default -> {
        int capacity = inputs.get(0).capacity();
        Symbol memory = typing.memory(capacity, call);
        yield memory == null
            ? null
            : new StringFunction(
                call.name().toLowerCase(Locale.ROOT), inputs, memory, capacity, source);
      }
    };
  }

  private Expression joined(Syntax.Call call, List<Expression> inputs, SourceText source) {
    Expression joined = inputs.get(0);
    for (Expression next : inputs.subList(1, inputs.size())) {
      int capacity = Math.min(StringCells.LONGEST, joined.capacity() + next.capacity());
      Symbol memory = typing.memory(capacity, call);
      if (memory == null) {
        return null;
      }
      joined = new StringFunction("concat", List.of(joined, next), memory, capacity, source);
    }
    return joined;
  }

  private Expression string(Syntax syntax) {
    Expression typed = typing.wanted(syntax, Type.STRING);
    return typed == null ? null : typing.inMemory(typed, syntax);
  }

  private Expression integer(Syntax syntax) {
    Expression typed = typing.type(syntax, null);
    if (typed == null || typed.type().isInteger() && typed.type() != Type.ULINT) {
      return typed;
    }
    return typing.wrong(
        Code.WRONG_TYPE,
        syntax,
        Wording.quote(typing.quoted(syntax)) + " is " + typed.typeName(),
        "an integer",
        "");
  }

  /** Whether X_TO_Y exists, one of them STRING. */
  static boolean converts(String from, String to) {
    Type other = Type.named(from.equals("STRING") ? to : from);
    if (other == null || from.equals("STRING") == to.equals("STRING")) {
      return false;
    }
    return other.isInteger() || to.equals("STRING") && other == Type.BOOL;
  }

  /** A conversion that exists, with one input; null after a diagnostic. */
  Expression conversion(Syntax.Call call, String from, String to) {
    Syntax input = call.inputs().get(0);
    if (from.equals("STRING")) {
      Expression text = string(input);
      return text == null
          ? null
          : new StringMeasure("number", List.of(text), Type.named(to), typing.source(call));
    }
    Type type = Type.named(from);
    Expression value = typing.wanted(input, type);
    Symbol memory = value == null ? null : typing.memory(MOST_DIGITS, call);
    String method = type == Type.BOOL ? "truth" : type == Type.ULINT ? "unsigned" : "signed";
    return memory == null
        ? null
        : new StringFunction(method, List.of(value), memory, MOST_DIGITS, typing.source(call));
  }
}
