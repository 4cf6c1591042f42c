package bufferstop.st;

import bufferstop.model.Type;
import java.util.List;

/**
 * The type an expression has when it is made only of literals without a type and nothing else gives
 * it one.
 */
final class OpenTypes {
  private OpenTypes() {}

  /** That type (INT, DINT, LINT, ULINT or LREAL); null for an expression with a type of its own. */
  static Type of(Syntax syntax) {
    if (syntax instanceof Syntax.Value value) {
      return ofLiteral(value.literal());
    }
    if (syntax instanceof Syntax.Brackets brackets) {
      return of(brackets.inner());
    }
    if (syntax instanceof Syntax.Sign sign) {
      return of(sign.operand());
    }
    if (syntax instanceof Syntax.Binary binary) {
      return ofBinary(binary);
    }
    return syntax instanceof Syntax.Call call ? ofCall(call) : null;
  }

  private static Type ofLiteral(Literal literal) {
    if (literal instanceof Literal.Whole whole) {
      return whole.ownType();
    }
    return literal instanceof Literal.Real ? Type.LREAL : null;
  }

  private static Type ofBinary(Syntax.Binary binary) {
    if (binary.operator().isLogic() || binary.operator().isComparison()) {
      return null;
    }
    Type left = of(binary.left());
    if (binary.operator() == Operator.POWER) {
      return left == null ? null : Type.LREAL;
    }
    return wider(left, of(binary.right()));
  }

  private static Type ofCall(Syntax.Call call) {
    List<Syntax> inputs = call.inputs();
    if (RealFunction.exists(call.name())) {
      return inputs.size() == 1 && of(inputs.get(0)) != null ? Type.LREAL : null;
    }
    return switch (call.name()) {
      case "ABS", "MIN", "MAX", "LIMIT" -> widest(inputs);
      case "SEL", "MUX" -> inputs.isEmpty() ? null : widest(inputs.subList(1, inputs.size()));
      default -> null;
    };
  }

  /** The widest of them; null when one has a type of its own, or there are none. */
  static Type widest(List<Syntax> all) {
    Type widest = all.isEmpty() ? null : of(all.get(0));
    for (int i = 1; i < all.size(); i++) {
      widest = wider(widest, of(all.get(i)));
    }
    return widest;
  }

  private static Type wider(Type a, Type b) {
    if (a == null || b == null) {
      return null;
    }
    return a.compareTo(b) > 0 ? a : b; // declared in that order
  }
}
