package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Structure;
import java.util.List;

/**
 * Signed distance of a BOOL expression from changing its value by its quantities of one unit:
 * minimum over AND, maximum over OR, negated by NOT, plus or minus infinity for whatever is not
 * measured in that unit. It tells how far; what is true is told by the expression itself. Source:
 * Fainekos and Pappas 2009 (abstract re-read); Donzé and Maler 2010 [from memory, not re-read].
 */
abstract class Robustness {

  /** Distance over an image; positive when the expression is true. */
  abstract double distance(long[] cells);

  static Robustness of(Expression expression, String unit) {
    Structure structure = expression.structure();
    if (structure instanceof Structure.And and) {
      return new Extreme(all(and.parts(), unit), false);
    }
    if (structure instanceof Structure.Or or) {
      return new Extreme(all(or.parts(), unit), true);
    }
    if (structure instanceof Structure.Not not) {
      return new Negated(of(not.part(), unit));
    }
    if (structure instanceof Structure.Comparison comparison && unitOf(comparison).equals(unit)) {
      return new Compared(comparison);
    }
    return new Plain(expression);
  }

  private static Robustness[] all(List<Expression> parts, String unit) {
    return parts.stream().map(p -> of(p, unit)).toArray(Robustness[]::new);
  }

  /** Adds the units of an expression's comparisons, each once, in the order written. */
  static void units(Expression expression, List<String> into) {
    Structure structure = expression.structure();
    if (structure instanceof Structure.And and) {
      and.parts().forEach(p -> units(p, into));
    } else if (structure instanceof Structure.Or or) {
      or.parts().forEach(p -> units(p, into));
    } else if (structure instanceof Structure.Not not) {
      units(not.part(), into);
    } else if (structure instanceof Structure.Comparison comparison) {
      String unit = unitOf(comparison);
      if (!into.contains(unit)) {
        into.add(unit);
      }
    }
  }

  static String unitOf(Structure.Comparison comparison) {
    if (comparison.left().type() == Type.TIME) {
      return "s";
    }
    for (Expression side : List.of(comparison.left(), comparison.right())) {
      for (Symbol symbol : side.reads()) {
        if (!symbol.unit().isEmpty()) {
          return symbol.unit();
        }
      }
    }
    return "";
  }

  /** How far a comparison is from changing its value; NaN when one side is. */
  static double distance(Structure.Comparison comparison, long[] cells) {
    double left = comparison.left().real(cells);
    double right = comparison.right().real(cells);
    return switch (comparison.operator()) {
      case "<", "<=" -> right - left;
      case ">", ">=" -> left - right;
      case "=" -> -Math.abs(left - right);
      default -> Math.abs(left - right);
    };
  }

  private static final class Extreme extends Robustness {
    private final Robustness[] parts;
    private final boolean greatest;

    Extreme(Robustness[] parts, boolean greatest) {
      this.parts = parts;
      this.greatest = greatest;
    }

    @Override
    double distance(long[] cells) {
      double result = parts[0].distance(cells);
      for (int i = 1; i < parts.length; i++) {
        double next = parts[i].distance(cells);
        result = greatest ? Math.max(result, next) : Math.min(result, next);
      }
      return result;
    }
  }

  private static final class Negated extends Robustness {
    private final Robustness part;

    Negated(Robustness part) {
      this.part = part;
    }

    @Override
    double distance(long[] cells) {
      return -part.distance(cells);
    }
  }

  private static final class Compared extends Robustness {
    private final Structure.Comparison comparison;

    Compared(Structure.Comparison comparison) {
      this.comparison = comparison;
    }

    @Override
    double distance(long[] cells) {
      return distance(comparison, cells);
    }
  }

  private static final class Plain extends Robustness {
    private final Expression expression;

    Plain(Expression expression) {
      this.expression = expression;
    }

    @Override
    double distance(long[] cells) {
      return expression.truth(cells) ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    }
  }
}
