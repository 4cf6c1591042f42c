package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The standard functions. Source: IEC 61131-3:2003, Tables 22, 23, 24 and 27. */
final class Calls {
  private static final Pattern CONVERSION = Pattern.compile("([A-Z]+)_TO_([A-Z]+)");
  private static final int MOST_INPUTS = 64; // that their code has room in one method
  private static final List<String> PLAIN =
      List.of(
          "ABS", "SQRT", "LN", "LOG", "EXP", "SIN", "COS", "TAN", "ASIN", "ACOS", "ATAN", "MIN",
          "MAX", "LIMIT", "SEL", "MUX", "TRUNC", "SHL", "SHR", "ROL", "ROR", "ADD", "MUL", "SUB",
          "DIV", "EXPT", "MOVE");

  private final Typing typing;
  private final StringCalls strings;

  Calls(Typing typing) {
    this.typing = typing;
    this.strings = new StringCalls(typing);
  }

  /** Whether the standard has a function of that name, in any case. */
  static boolean isStandard(String name) {
    String upper = name.toUpperCase(Locale.ROOT);
    Matcher words = CONVERSION.matcher(upper);
    return PLAIN.contains(upper)
        || words.matches()
            && Type.named(words.group(1)) != null
            && Type.named(words.group(2)) != null;
  }

  /** The typed call, or null after a diagnostic. */
  Expression type(Syntax.Call call, Type hint) {
    UserFunction own = typing.function(call.name());
    if (own != null) {
      return new FunctionCalls(typing).type(call, own);
    }
    if (RealFunction.exists(call.name())) {
      Expression operand =
          takes(call, 1, 1, "(IN)") ? typing.real(call.inputs().get(0), hint) : null;
      return operand == null
          ? null
          : typing.made(new RealFunction(call.name(), operand, typing.source(call)));
    }
    if (StringCalls.NAMES.contains(call.name())) {
      String name = call.name();
      boolean takes =
          takes(call, StringCalls.least(name), StringCalls.most(name), StringCalls.form(name));
      return takes ? strings.type(call) : null;
    }
    return switch (call.name()) {
      case "ABS" -> takes(call, 1, 1, "(IN)") ? absolute(call, hint) : null;
      case "TRUNC" -> takes(call, 1, 1, "(IN)") ? trunc(call) : null;
      case "MIN", "MAX" ->
          takes(call, 2, MOST_INPUTS, "(IN1, IN2, ...)") ? extreme(call, hint) : null;
      case "LIMIT" -> takes(call, 3, 3, "(MN, IN, MX)") ? limit(call, hint) : null;
      case "SEL" -> takes(call, 3, 3, "(G, IN0, IN1)") ? choice(call, hint) : null;
      case "MUX" -> takes(call, 3, MOST_INPUTS, "(K, IN0, IN1, ...)") ? choice(call, hint) : null;
      case "SHL", "SHR", "ROL", "ROR" -> takes(call, 2, 2, "(IN, N)") ? shift(call, hint) : null;
      case "ADD", "MUL" -> tooFew(call, "(IN1, IN2, ...)");
      case "SUB", "DIV", "EXPT" -> tooFew(call, "(IN1, IN2)");
      case "MOVE" -> tooFew(call, "(IN)");
      default -> conversion(call);
    };
  }

  private boolean takes(Syntax.Call call, int least, int most, String form) {
    int given = call.inputs().size();
    if (given >= least && given <= most) {
      return true;
    }
    tooFew(call, form);
    return false;
  }

  /** The count of inputs is wrong; what is wrong inside them is still found. */
  private Expression tooFew(Syntax.Call call, String form) {
    checkInputs(call);
    int given = call.inputs().size();
    return typing.wrong(
        Code.BAD_CALL,
        call,
        "`" + call.name() + "` has " + (given == 1 ? "1 input" : given + " inputs"),
        call.name() + form,
        "");
  }

  private void checkInputs(Syntax.Call call) {
    for (Syntax input : call.inputs()) {
      if (!typing.elements().isArray(input)) { // a function that is not known may take it
        typing.type(input, null);
      }
    }
  }

  private Expression absolute(Syntax.Call call, Type hint) {
    Expression operand = typing.type(call.inputs().get(0), hint);
    if (operand == null || operand.type().isNumber()) {
      return operand == null ? null : typing.made(new Absolute(operand, typing.source(call)));
    }
    return notNumber(call.inputs().get(0), operand);
  }

  private Expression shift(Syntax.Call call, Type hint) {
    Syntax shifted = call.inputs().get(0);
    Expression bits = typing.type(shifted, hint != null && hint.isBitString() ? hint : null);
    Expression count = integer(call.inputs().get(1));
    if (bits == null || count == null) {
      return null;
    }
    if (bits.type().isBitString()) {
      return typing.made(new Shift(call.name(), bits, count, typing.source(call)));
    }
    boolean mends = bits.type().isInteger() && OpenTypes.of(shifted) == null;
    String quote = typing.quoted(shifted);
    return typing.wrong(
        Code.WRONG_TYPE,
        shifted,
        Wording.quote(quote) + " is " + bits.type(),
        "a bit string: BYTE, WORD, DWORD or LWORD",
        mends ? "write " + bits.type() + "_TO_" + ofSize(bits.type()) + "(" + quote + ")" : "");
  }

  private static Type ofSize(Type integer) {
    return switch (integer.bits()) {
      case 8 -> Type.BYTE;
      case 16 -> Type.WORD;
      case 32 -> Type.DWORD;
      default -> Type.LWORD;
    };
  }

  private Expression notNumber(Syntax input, Expression typed) {
    return typing.wrong(
        Code.WRONG_TYPE,
        input,
        Wording.quote(typing.quoted(input)) + " is " + typed.typeName(),
        "a number",
        "");
  }

  private Expression trunc(Syntax.Call call) {
    Expression operand = typing.real(call.inputs().get(0), null);
    return operand == null
        ? null
        : typing.made(Conversion.truncating(operand, Type.DINT, typing.source(call)));
  }

  private Expression extreme(Syntax.Call call, Type hint) {
    List<Expression> inputs = ordered(call, hint);
    return inputs == null
        ? null
        : typing.made(new Extreme(call.name().equals("MAX"), inputs, typing.source(call)));
  }

  /** LIMIT(MN, IN, MX) is MIN(MAX(IN, MN), MX). */
  private Expression limit(Syntax.Call call, Type hint) {
    List<Expression> inputs = ordered(call, hint);
    if (inputs == null) {
      return null;
    }
    SourceText source = typing.source(call);
    Expression atLeast = typing.placed(new Extreme(true, inputs.subList(0, 2), source));
    return typing.made(new Extreme(false, List.of(atLeast, inputs.get(2)), source));
  }

  /** All inputs as one type that has an order. */
  private List<Expression> ordered(Syntax.Call call, Type hint) {
    List<Expression> inputs = alike(call, call.inputs(), hint);
    if (inputs != null && !Typing.isQuantity(inputs.get(0).type())) {
      notNumber(call.inputs().get(0), inputs.get(0));
      return null;
    }
    return inputs;
  }

  private Expression choice(Syntax.Call call, Type hint) {
    Syntax selector = call.inputs().get(0);
    Expression number =
        call.name().equals("SEL") ? typing.wanted(selector, Type.BOOL) : integer(selector);
    List<Expression> inputs = alike(call, call.inputs().subList(1, call.inputs().size()), hint);
    if (inputs != null && inputs.get(0).type() == Type.STRING) {
      inputs = lying(call, inputs);
    }
    return number == null || inputs == null
        ? null
        : typing.made(new Choice(number, inputs, typing.source(call)));
  }

  private List<Expression> lying(Syntax.Call call, List<Expression> texts) {
    List<Expression> lying = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      lying.add(typing.inMemory(texts.get(i), call.inputs().get(i + 1)));
    }
    return lying.contains(null) ? null : lying;
  }

  private Expression integer(Syntax syntax) {
    Expression typed = typing.type(syntax, null);
    if (typed == null || typed.type().isInteger()) {
      return typed;
    }
    return typing.wrong(
        Code.WRONG_TYPE,
        syntax,
        Wording.quote(typing.quoted(syntax)) + " is " + typed.type(),
        "an integer",
        "");
  }

  private List<Expression> alike(Syntax.Call call, List<Syntax> inputs, Type hint) {
    List<Expression> typed = typing.operands(inputs, hint);
    if (typed == null) {
      return null;
    }
    Type common = Typing.common(typed);
    if (common != null) {
      return Typing.widened(typed, common);
    }
    List<String> types = typed.stream().map(Expression::typeName).distinct().toList();
    StringBuilder mixed = new StringBuilder(types.get(0));
    for (String type : types.subList(1, types.size())) {
      mixed.append(" and ").append(type);
    }
    typing.wrong(
        Code.WRONG_TYPE,
        call,
        Wording.quote(typing.quoted(call)) + " mixes " + mixed,
        "inputs of one type",
        typed.stream().allMatch(e -> e.type().isPlain())
            ? "convert one, for example with " + types.get(1) + "_TO_" + types.get(0)
            : "");
    return null;
  }

  private Expression conversion(Syntax.Call call) {
    Matcher words = CONVERSION.matcher(call.name());
    if (words.matches() && StringCalls.converts(words.group(1), words.group(2))) {
      return takes(call, 1, 1, "(IN)")
          ? strings.conversion(call, words.group(1), words.group(2))
          : null;
    }
    Type from = words.matches() ? Type.named(words.group(1)) : null;
    Type to = from == null ? null : Type.named(words.group(2));
    if (to == null || !Conversion.exists(from, to)) {
      checkInputs(call);
      return unknown(call, from, to);
    }
    if (!takes(call, 1, 1, "(IN)")) {
      return null;
    }
    Expression operand = typing.wanted(call.inputs().get(0), from);
    return operand == null
        ? null
        : typing.made(Conversion.rounding(operand, to, typing.source(call)));
  }

  private Expression unknown(Syntax.Call call, Type from, Type to) {
    boolean toBool = to == Type.BOOL && (from.isNumber() || from.isBitString());
    String input = call.inputs().size() == 1 ? typing.quoted(call.inputs().get(0)) : "x";
    return typing.noFunction(call, toBool ? "write `" + input + " <> 0`" : "");
  }

  /** The names of all standard functions. */
  static List<String> known() {
    List<String> all = new ArrayList<>(PLAIN);
    all.addAll(StringCalls.NAMES);
    for (Type type : Type.values()) {
      if (StringCalls.converts(type.name(), "STRING")) {
        all.add(type + "_TO_STRING");
      }
      if (StringCalls.converts("STRING", type.name())) {
        all.add("STRING_TO_" + type);
      }
    }
    for (Type from : Type.values()) {
      for (Type to : Type.values()) {
        if (Conversion.exists(from, to)) {
          all.add(from + "_TO_" + to);
        }
      }
    }
    return all;
  }
}
