package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * Syntax to typed expressions. Every method returns null after a diagnostic, its own or that of a
 * part; what depends on a wrong part says nothing. A hint is the type an expression is used with:
 * it decides the type of literals and which names are suggested, nothing else.
 */
final class Typing {
  private final SourceText text;
  private final Names names;
  private final Diagnostics problems;
  private final Mismatch mismatch;
  private final Calls calls;
  private final List<Program.Call> called = new ArrayList<>();
  private final Elements elements;
  private Enumeration wish; // what a hint of ENUM stands for

  Typing(SourceText text, Names names, Diagnostics problems) {
    this.text = text;
    this.names = names;
    this.problems = problems;
    this.mismatch = new Mismatch(this);
    this.calls = new Calls(this);
    this.elements = new Elements(this, names, problems);
  }

  /** The expression as one of that type, widened where needed; of any type for null. */
  Expression wanted(Syntax syntax, Type type) {
    Expression expression = type(syntax, type);
    return expression == null || type == null ? expression : as(expression, syntax, type);
  }

  /** The same, of that enumeration if {@code type} is ENUM. */
  Expression wanted(Syntax syntax, Type type, Enumeration enumeration) {
    if (enumeration == null) {
      return wanted(syntax, type);
    }
    Expression expression = wishing(syntax, enumeration);
    if (expression == null || enumeration.equals(expression.enumeration())) {
      return expression;
    }
    String message = Wording.quote(quoted(syntax)) + " is " + expression.typeName();
    return wrong(Code.WRONG_TYPE, syntax, message, Wording.value(enumeration), "");
  }

  /** The same, a STRING or an array lying in cells. */
  Expression given(Syntax syntax, ValueType type) {
    if (type.isArray()) {
      return elements.whole(syntax, type);
    }
    Expression expression = wanted(syntax, type.type(), type.enumeration());
    return expression != null && type.type() == Type.STRING
        ? inMemory(expression, syntax)
        : expression;
  }

  private Expression wishing(Syntax syntax, Enumeration enumeration) {
    Enumeration outer = wish;
    wish = enumeration;
    Expression expression = type(syntax, Type.ENUM);
    wish = outer;
    return expression;
  }

  /** Of whatever type it has. */
  Expression type(Syntax syntax, Type hint) {
    Expression typed = typed(syntax, hint);
    return typed == null ? null : placed(typed);
  }

  /** Gives an expression that may fail in a run its place. */
  Expression placed(Expression expression) {
    return expression.placed(problems);
  }

  private Expression typed(Syntax syntax, Type hint) {
    if (syntax instanceof Syntax.Value value) {
      return literal(value, hint);
    }
    if (syntax instanceof Syntax.Name name) {
      return names.value(name.text(), source(name), hint, hint == Type.ENUM ? wish : null);
    }
    if (syntax instanceof Syntax.Index index) {
      return elements.read(index);
    }
    if (syntax instanceof Syntax.Brackets brackets) {
      return type(brackets.inner(), hint);
    }
    if (syntax instanceof Syntax.Complement not) {
      return complement(not, hint);
    }
    if (syntax instanceof Syntax.Sign sign) {
      return sign(sign, hint);
    }
    if (syntax instanceof Syntax.Binary binary) {
      return binary(binary, hint);
    }
    if (syntax instanceof Syntax.Remains remains) {
      remains.parts().forEach(part -> type(part, null));
    }
    if (syntax instanceof Syntax.Named named) {
      type(named.value(), null);
    }
    return syntax instanceof Syntax.Call call ? calls.type(call, hint) : null;
  }

  private Expression literal(Syntax.Value value, Type hint) {
    Literal literal = value.literal();
    if (literal instanceof Literal.Member member) {
      return names.member(member, source(value));
    }
    if (literal instanceof Literal.Text text) {
      return new StringLiteral(text.value(), source(value));
    }
    if (literal instanceof Literal.Typed typed) {
      return new Constant(typed.type(), typed.bits(), source(value));
    }
    Literal.Typed fitting = hint == null ? null : LiteralReader.in(literal, hint);
    if (fitting == null) {
      fitting = LiteralReader.in(literal, OpenTypes.of(value));
    }
    if (fitting == null) {
      String message = "`" + quoted(value) + "` is larger than any integer";
      return wrong(Code.OUT_OF_RANGE, value, message, "", "");
    }
    return new Constant(fitting.type(), fitting.bits(), source(value));
  }

  Elements elements() {
    return elements;
  }

  /** A STRING that lies in cells; null after a diagnostic. */
  Expression inMemory(Expression expression, Syntax syntax) {
    if (expression instanceof StringLiteral literal && !literal.lies()) {
      Symbol memory = names.scratch(literal.memory());
      return memory == null ? noMemory(syntax) : literal.lying(memory);
    }
    return expression;
  }

  /** Cells for a result of at most that many bytes; null after a diagnostic. */
  Symbol memory(int capacity, Syntax syntax) {
    Symbol memory = names.scratch(StringCells.cells(capacity));
    if (memory == null) {
      noMemory(syntax);
    }
    return memory;
  }

  private Expression noMemory(Syntax syntax) {
    String message = Wording.quote(quoted(syntax)) + " is worked out in the controller only";
    String expected = "a STRING point, compared with another or with a literal";
    return wrong(Code.WRONG_TYPE, syntax, message, expected, "work it out in an internal point");
  }

  private Expression sign(Syntax.Sign sign, Type hint) {
    Type open = OpenTypes.of(sign);
    Expression operand = type(sign.operand(), open == null ? hint : openHint(open, hint));
    if (operand == null) {
      return null;
    }
    if (operand.type() != Type.TIME && !operand.type().isNumber()) {
      return wrong(
          Code.WRONG_TYPE,
          sign,
          "a sign before " + operand.typeName() + " " + Wording.quote(quoted(sign.operand())),
          "a number",
          operand.type() == Type.BOOL || operand.type().isBitString()
              ? "write `NOT " + quoted(sign.operand()) + "`"
              : "");
    }
    return sign.minus() ? made(new Negation(operand, source(sign))) : operand;
  }

  private Expression binary(Syntax.Binary binary, Type hint) {
    Operator operator = binary.operator();
    if (operator.isLogic()) {
      return logic(binary, hint);
    }
    if (operator == Operator.POWER) {
      return power(binary, hint);
    }
    List<Syntax> both = List.of(binary.left(), binary.right());
    List<Expression> typed = operands(both, operator.isComparison() ? null : hint);
    if (typed == null) {
      return null;
    }
    Expression left = typed.get(0);
    Expression right = typed.get(1);
    if (scales(operator, left.type(), right.type())) {
      return scaling(binary, left, right);
    }
    Type common = common(typed);
    if (common == null || !works(operator, common)) {
      return mismatch.operands(binary, left, right);
    }
    return operation(binary, widened(left, common), widened(right, common));
  }

  private Expression complement(Syntax.Complement not, Type hint) {
    Expression operand = type(not.operand(), bitsHint(hint));
    if (operand != null && !operand.type().isBitString()) {
      operand = as(operand, not.operand(), Type.BOOL);
    }
    return operand == null ? null : new Not(operand, source(not));
  }

  private Expression logic(Syntax.Binary binary, Type hint) {
    List<Expression> typed =
        operands(List.of(binary.left(), binary.right()), bitsHint(hint), Type.BOOL);
    if (typed == null) {
      return null;
    }
    Expression left = typed.get(0);
    Expression right = typed.get(1);
    if (!left.type().isBitString() && !right.type().isBitString()) {
      left = as(left, binary.left(), Type.BOOL);
      right = as(right, binary.right(), Type.BOOL);
    } else if (left.type() != right.type()) {
      return mismatch.operands(binary, left, right);
    }
    return left == null || right == null
        ? null
        : new Logic(binary.operator(), left, right, source(binary));
  }

  /** What is used as a number does not make bits of its literals. */
  private static Type bitsHint(Type hint) {
    return hint == Type.BOOL || hint != null && hint.isBitString() ? hint : null;
  }

  private Expression power(Syntax.Binary binary, Type hint) {
    Expression base = real(binary.left(), hint);
    Expression exponent = type(binary.right(), null);
    if (base == null || exponent == null) {
      return null;
    }
    if (!exponent.type().isNumber()) {
      return mismatch.operands(binary, base, exponent);
    }
    return made(new RealArithmetic(Operator.POWER, base, exponent, source(binary)));
  }

  /** An expression that must be real already; literals become so. */
  Expression real(Syntax syntax, Type hint) {
    Type open = OpenTypes.of(syntax) == null || hint != null && hint.isReal() ? hint : Type.LREAL;
    Expression expression = type(syntax, open);
    if (expression == null || expression.type().isReal()) {
      return expression;
    }
    if (OpenTypes.of(syntax) != null && expression.type().widensTo(open)) {
      return widened(expression, open);
    }
    Type fitting = expression.type().widensTo(Type.REAL) ? Type.REAL : Type.LREAL;
    return mismatch.wanted(expression, syntax, fitting, "a REAL or LREAL expression");
  }

  private static boolean scales(Operator operator, Type left, Type right) {
    boolean scaling = operator == Operator.TIMES || operator == Operator.DIVIDED;
    return scaling && left == Type.TIME && (right.isReal() || right.widensTo(Type.LINT));
  }

  private Expression scaling(Syntax.Binary binary, Expression time, Expression factor) {
    return refuseZero(binary, factor)
        ? null
        : made(new TimeScaling(binary.operator(), time, factor, source(binary)));
  }

  private static boolean works(Operator operator, Type type) {
    return switch (operator) {
      case PLUS, MINUS -> isQuantity(type);
      case TIMES, DIVIDED -> type.isNumber();
      case MODULO -> type.isInteger();
      case EQUAL, UNEQUAL -> true;
      default -> isQuantity(type) || type == Type.STRING;
    };
  }

  /** Whether values of the type have an order, and a sum. */
  static boolean isQuantity(Type type) {
    return type.isNumber() || type == Type.TIME;
  }

  private Expression operation(Syntax.Binary binary, Expression left, Expression right) {
    Operator operator = binary.operator();
    SourceText source = source(binary);
    if (left.type() == Type.STRING) {
      return new StringComparison(operator, left, right, source);
    }
    if (operator.isComparison()) {
      return new Comparison(operator, left, right, source);
    }
    if (refuseZero(binary, right)) {
      return null;
    }
    return made(
        left.type().isReal()
            ? new RealArithmetic(operator, left, right, source)
            : new IntegerArithmetic(operator, left, right, source));
  }

  /** A constant divisor of 0 is an error for division, and worth a warning for MOD. */
  private boolean refuseZero(Syntax.Binary binary, Expression divisor) {
    Operator operator = binary.operator();
    boolean divides = operator == Operator.DIVIDED || operator == Operator.MODULO;
    if (!divides
        || divisor.constant() == null
        || Numbers.real(divisor.type(), divisor.constant()) != 0) {
      return false;
    }
    if (operator == Operator.DIVIDED) {
      wrong(Code.ALWAYS_SO, binary.right(), "division by zero", "a divisor other than 0", "");
      return true;
    }
    String zero = Wording.quote(quoted(binary)) + " is always 0";
    Diagnostic warning = Diagnostic.warning(Code.ALWAYS_SO, place(binary.right()), zero);
    problems.add(warning.help("MOD by zero gives 0 and raises no error"));
    return false;
  }

  /**
   * The operands of one operation, literals taking the type of the others; null when one is wrong.
   * They may still differ in type.
   */
  List<Expression> operands(List<Syntax> all, Type hint) {
    return operands(all, hint, null);
  }

  /**
   * The same.
   *
   * @param likely the type that names are suggested of while nothing else gives one
   */
  private List<Expression> operands(List<Syntax> all, Type hint, Type likely) {
    Expression[] typed = new Expression[all.size()];
    Type common = null;
    for (int i = 0; i < typed.length; i++) {
      if (OpenTypes.of(all.get(i)) == null && !mayBeMember(all.get(i))) {
        typed[i] = type(all.get(i), common == null ? likely : common);
        common = typed[i] == null ? common : either(common, typed[i].type());
      }
    }
    Type open = common != null ? common : openHint(OpenTypes.widest(all), hint);
    for (int i = 0; i < typed.length; i++) {
      if (OpenTypes.of(all.get(i)) != null) {
        typed[i] = type(all.get(i), open);
      }
    }
    Enumeration shared = enumeration(typed);
    for (int i = 0; i < typed.length; i++) {
      if (mayBeMember(all.get(i))) {
        typed[i] = shared == null ? type(all.get(i), hint) : wishing(all.get(i), shared);
      }
    }
    return Arrays.asList(typed).contains(null) ? null : List.of(typed);
  }

  private boolean mayBeMember(Syntax syntax) {
    return syntax instanceof Syntax.Name name && names.mayBeMember(name.text());
  }

  private static Enumeration enumeration(Expression[] typed) {
    for (Expression expression : typed) {
      if (expression != null && expression.enumeration() != null) {
        return expression.enumeration();
      }
    }
    return null;
  }

  /** Integers among literals do not become reals by their use: 10 / 4 stays 2. */
  private static Type openHint(Type open, Type hint) {
    if (open != null && open.isInteger() && hint != null && hint.isBitString()) {
      return hint;
    }
    boolean suits = open != null && hint != null && open.isReal() == hint.isReal();
    return suits && hint.isNumber() ? hint : open;
  }

  private static Type either(Type a, Type b) {
    return a == null || a.widensTo(b) ? b : a;
  }

  /** The one of their types that all the others widen to, or null. */
  static Type common(List<Expression> typed) {
    Type widest = typed.get(0).type();
    for (Expression expression : typed) {
      widest = either(widest, expression.type());
    }
    for (Expression expression : typed) {
      boolean isOther = !Objects.equals(expression.enumeration(), typed.get(0).enumeration());
      if (isOther || !expression.type().widensTo(widest)) {
        return null;
      }
    }
    return widest;
  }

  static Expression widened(Expression expression, Type type) {
    return expression.type() == type ? expression : new Widening(expression, type);
  }

  static List<Expression> widened(List<Expression> all, Type type) {
    List<Expression> widened = new ArrayList<>();
    for (Expression expression : all) {
      widened.add(widened(expression, type));
    }
    return widened;
  }

  private Expression as(Expression expression, Syntax syntax, Type type) {
    return expression.type().widensTo(type)
        ? widened(expression, type)
        : mismatch.wanted(expression, syntax, type, Wording.expression(type));
  }

  /** Warns when an operation on constants can only fail. */
  Expression made(Expression operation) {
    boolean known = operation.operands().stream().allMatch(o -> o.constant() != null);
    if (known && operation.constant() == null) {
      Type type = operation.type();
      String message = Wording.quote(operation.source().value()) + " has no value in " + type;
      message += ": it always raises an error";
      Diagnostic warning = Diagnostic.warning(Code.ALWAYS_SO, operation.source().whole(), message);
      problems.add(type.isInteger() ? warning.expected(Wording.range(type)) : warning);
    }
    return operation;
  }

  /** The user's function of that name, or null. */
  UserFunction function(String name) {
    return names.function(name);
  }

  /** Notes a call of a user's function. */
  void called(UserFunction function, Position position) {
    called.add(new Program.Call(function, position));
  }

  /** The calls of users' functions so far. */
  List<Program.Call> called() {
    return called;
  }

  /** Reports a call of a function that is not there. Returns null. */
  Expression noFunction(Syntax.Call call, String help) {
    return names.noFunction(call, place(call.start(), call.nameEnd()), help);
  }

  Expression wrong(Code code, Syntax syntax, String message, String expected, String help) {
    return wrong(code, place(syntax), message, expected, help);
  }

  Expression wrong(Code code, Position position, String message, String expected, String help) {
    problems.add(Diagnostic.error(code, position, message).expected(expected).help(help));
    return null;
  }

  Position place(Syntax syntax) {
    return text.at(syntax.start(), syntax.end());
  }

  Position place(int start, int end) {
    return text.at(start, end);
  }

  /** What the user wrote there, on one line. */
  String quoted(Syntax syntax) {
    return Wording.inLine(text.value().substring(syntax.start(), syntax.end()));
  }

  /** The piece of the text with its places. */
  SourceText source(Syntax syntax) {
    return part(syntax.start(), syntax.end());
  }

  SourceText part(int start, int end) {
    return text.part(start, end);
  }
}
