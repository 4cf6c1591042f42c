package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Structure;
import java.util.List;

/**
 * Signed distance of a BOOL expression from changing its value: min over AND, max over OR, negated
 * by NOT, plus or minus infinity where nothing has a distance. It tells how far; what is true is
 * told by the expression itself. Source: Fainekos and Pappas 2009 (abstract re-read); Donzé and
 * Maler 2010 [from memory, not re-read].
 */
abstract class Robustness {

  /** Distance over an image; positive when the expression is true. */
  abstract double distance(long[] cells);

  /** Unit of the part that decides over this image; empty when none has one. */
  abstract String unit(long[] cells);

  static Robustness of(Expression expression) {
    Structure structure = expression.structure();
    if (structure instanceof Structure.And and) {
      return new Extreme(all(and.parts()), false);
    }
    if (structure instanceof Structure.Or or) {
      return new Extreme(all(or.parts()), true);
    }
    if (structure instanceof Structure.Not not) {
      return new Negated(of(not.part()));
    }
    if (structure instanceof Structure.Comparison comparison) {
      return new Compared(comparison);
    }
    return new Plain(expression);
  }

  private static Robustness[] all(List<Expression> parts) {
    return parts.stream().map(Robustness::of).toArray(Robustness[]::new);
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

    @Override
    String unit(long[] cells) {
      double decides = distance(cells);
      for (Robustness part : parts) {
        if (part.distance(cells) == decides) {
          return part.unit(cells);
        }
      }
      return "";
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

    @Override
    String unit(long[] cells) {
      return part.unit(cells);
    }
  }

  private static final class Compared extends Robustness {
    private final Structure.Comparison comparison;
    private final String unit;

    Compared(Structure.Comparison comparison) {
      this.comparison = comparison;
      this.unit = unitOf(comparison);
    }

    @Override
    double distance(long[] cells) {
      double left = comparison.left().real(cells);
      double right = comparison.right().real(cells);
      return switch (comparison.operator()) {
        case "<", "<=" -> right - left;
        case ">", ">=" -> left - right;
        case "=" -> -Math.abs(left - right);
        default -> Math.abs(left - right);
      };
    }

    @Override
    String unit(long[] cells) {
      return unit;
    }

    private static String unitOf(Structure.Comparison comparison) {
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

    @Override
    String unit(long[] cells) {
      return "";
    }
  }
}
