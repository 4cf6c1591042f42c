package bufferstop.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * A condition with its meaning taken straight from the definitions: truth and robustness at a
 * sample, control-semantics 8.2 [from memory, not re-read].
 */
interface Formula {
  String text();

  boolean holds(int sample);

  /** Distance in one unit; infinite for what is not measured in it. */
  double robustness(int sample, String unit);

  private static double infinite(boolean holds) {
    return holds ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
  }

  /** A trace to draw formulas over: x in m, y in V, p a BOOL, at uneven times. */
  record Trace(long[] t, double[] x, double[] y, boolean[] p) {

    static Trace draw(Random random, int samples, long periodMicros) {
      Trace trace =
          new Trace(
              new long[samples], new double[samples], new double[samples], new boolean[samples]);
      for (int i = 1; i < samples; i++) {
        trace.t[i] = trace.t[i - 1] + periodMicros * (random.nextInt(4) == 0 ? 3 : 1);
      }
      for (int i = 0; i < samples; i++) {
        trace.x[i] = (random.nextInt(9) - 4) / 2.0; // few values, so that equal ones are common
        trace.y[i] = (random.nextInt(9) - 4) / 2.0;
        trace.p[i] = random.nextInt(4) > 0;
      }
      return trace;
    }

    Formula formula(Random random, int depth) {
      int kind = random.nextInt(depth == 0 ? 3 : 6);
      return switch (kind) {
        case 0 -> random.nextInt(3) == 0 ? new Name(this) : comparison(random);
        case 1, 2 -> comparison(random);
        case 3 -> new Not(formula(random, depth - 1));
        case 4 -> new Both(parts(random, depth));
        default -> new Either(parts(random, depth));
      };
    }

    private List<Formula> parts(Random random, int depth) {
      List<Formula> parts = new ArrayList<>();
      for (int i = 2 + random.nextInt(2); i > 0; i--) {
        parts.add(formula(random, depth - 1));
      }
      return parts;
    }

    private Formula comparison(Random random) {
      String[] operators = {"<", "<=", ">", ">=", "=", "<>"};
      double bound = (random.nextInt(9) - 4) / 2.0;
      if (random.nextInt(3) == 0) {
        return new CompareY(this, random.nextBoolean(), bound);
      }
      return new Compare(this, operators[random.nextInt(6)], random.nextBoolean(), bound);
    }
  }

  /** The BOOL p. */
  record Name(Trace trace) implements Formula {
    @Override
    public String text() {
      return "p";
    }

    @Override
    public boolean holds(int sample) {
      return trace.p[sample];
    }

    @Override
    public double robustness(int sample, String unit) {
      return infinite(holds(sample));
    }
  }

  /** y against a number. */
  record CompareY(Trace trace, boolean above, double bound) implements Formula {
    @Override
    public String text() {
      return "y " + (above ? ">= (" : "< (") + bound + ")";
    }

    @Override
    public boolean holds(int sample) {
      return above ? trace.y[sample] >= bound : trace.y[sample] < bound;
    }

    @Override
    public double robustness(int sample, String unit) {
      double d = trace.y[sample] - bound;
      return !unit.equals("V") ? infinite(holds(sample)) : above ? d : -d;
    }
  }

  /** x against a number, or against y plus a number; in the unit of x, which comes first. */
  record Compare(Trace trace, String operator, boolean withY, double bound) implements Formula {
    @Override
    public String text() {
      return "x " + operator + (withY ? " y + (" : " (") + bound + ")";
    }

    private double difference(int sample) {
      return trace.x[sample] - (withY ? trace.y[sample] : 0) - bound;
    }

    @Override
    public boolean holds(int sample) {
      double d = difference(sample);
      return switch (operator) {
        case "<" -> d < 0;
        case "<=" -> d <= 0;
        case ">" -> d > 0;
        case ">=" -> d >= 0;
        case "=" -> d == 0;
        default -> d != 0;
      };
    }

    @Override
    public double robustness(int sample, String unit) {
      double d = difference(sample);
      if (!unit.equals("m")) {
        return infinite(holds(sample));
      }
      return switch (operator) {
        case "<", "<=" -> -d;
        case ">", ">=" -> d;
        case "=" -> -Math.abs(d);
        default -> Math.abs(d);
      };
    }
  }

  /** Negation. */
  record Not(Formula part) implements Formula {
    @Override
    public String text() {
      return "NOT (" + part.text() + ")";
    }

    @Override
    public boolean holds(int sample) {
      return !part.holds(sample);
    }

    @Override
    public double robustness(int sample, String unit) {
      return -part.robustness(sample, unit);
    }
  }

  /** Conjunction. */
  record Both(List<Formula> parts) implements Formula {
    @Override
    public String text() {
      return String.join(" AND ", parts.stream().map(p -> "(" + p.text() + ")").toList());
    }

    @Override
    public boolean holds(int sample) {
      return parts.stream().allMatch(p -> p.holds(sample));
    }

    @Override
    public double robustness(int sample, String unit) {
      return parts.stream().mapToDouble(p -> p.robustness(sample, unit)).min().orElseThrow();
    }
  }

  /** Disjunction. */
  record Either(List<Formula> parts) implements Formula {
    @Override
    public String text() {
      return String.join(" OR ", parts.stream().map(p -> "(" + p.text() + ")").toList());
    }

    @Override
    public boolean holds(int sample) {
      return parts.stream().anyMatch(p -> p.holds(sample));
    }

    @Override
    public double robustness(int sample, String unit) {
      return parts.stream().mapToDouble(p -> p.robustness(sample, unit)).max().orElseThrow();
    }
  }
}
