package bufferstop.st;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Random statements over INT x, y, z and SINT loop variables p, q, s: their text, and the same
 * written down in Java.
 */
final class RandomStatements {
  private static final String[] PLAIN = {"x", "y", "z"};
  private static final String[] LOOP = {"p", "q", "s"};

  /** What a statement does to the variables x, y, z, p, q, s and the count of errors, in order. */
  interface Step {
    boolean exits(long[] values);
  }

  static final int ERRORS = 6;
  private final SplittableRandom random;
  private final StringBuilder text = new StringBuilder();
  private int loops;

  RandomStatements(SplittableRandom random) {
    this.random = random;
  }

  String text() {
    return text.toString();
  }

  Step list(int depth) {
    List<Step> steps = new ArrayList<>();
    for (int count = random.nextInt(1, 4); count > 0; count--) {
      steps.add(one(depth));
    }
    return values -> {
      for (Step step : steps) {
        if (step.exits(values)) {
          return true;
        }
      }
      return false;
    };
  }

  private Step one(int depth) {
    int choice = depth == 0 ? 0 : random.nextInt(4);
    if (choice == 1) {
      return choose(depth);
    }
    if (choice == 2 && loops < LOOP.length) {
      return loop(depth);
    }
    return choice == 3 && loops > 0 ? exit() : assignment();
  }

  private Step assignment() {
    int target = random.nextInt(PLAIN.length);
    int left = random.nextInt(PLAIN.length);
    int right = random.nextInt(PLAIN.length + loops);
    boolean times = random.nextInt(4) == 0;
    String name = right < PLAIN.length ? PLAIN[right] : LOOP[right - PLAIN.length];
    text.append("%s := %s %s %s;\n".formatted(PLAIN[target], PLAIN[left], times ? "*" : "+", name));
    return values -> {
      long value = times ? values[left] * values[right] : values[left] + values[right];
      if (value == (short) value) {
        values[target] = value;
      } else {
        values[ERRORS]++;
      }
      return false;
    };
  }

  private Step exit() {
    int name = random.nextInt(PLAIN.length);
    text.append("IF " + PLAIN[name] + " > 9 THEN EXIT; END_IF;\n");
    return values -> values[name] > 9;
  }

  /** Labels for -4 to 4, dealt out at random; runs of neighbours become ranges. */
  private Step choose(int depth) {
    int name = random.nextInt(PLAIN.length);
    int branches = random.nextInt(1, 4);
    int[] branchOf = new int[9];
    for (int i = 0; i < branchOf.length; i++) {
      branchOf[i] = random.nextInt(branches + 1) - 1; // -1: no label
    }
    text.append("CASE " + PLAIN[name] + " MOD 5 OF\n");
    List<Step> steps = new ArrayList<>();
    for (int branch = 0; branch < branches; branch++) {
      String labels = labels(branchOf, branch);
      if (labels.isEmpty()) {
        steps.add(null); // no label leads to it
      } else {
        text.append(labels + ":\n");
        steps.add(list(depth - 1));
      }
    }
    if (steps.stream().allMatch(s -> s == null) || random.nextBoolean()) {
      text.append("ELSE\n");
      Step otherwise = list(depth - 1);
      text.append("END_CASE;\n");
      return values -> {
        int branch = branchOf[(int) (values[name] % 5) + 4];
        return (branch < 0 ? otherwise : steps.get(branch)).exits(values);
      };
    }
    text.append("END_CASE;\n");
    return values -> {
      int branch = branchOf[(int) (values[name] % 5) + 4];
      return branch >= 0 && steps.get(branch).exits(values);
    };
  }

  private static String labels(int[] branchOf, int branch) {
    List<String> labels = new ArrayList<>();
    for (int i = 0; i < branchOf.length; i++) {
      if (branchOf[i] == branch) {
        int first = i;
        while (i + 1 < branchOf.length && branchOf[i + 1] == branch) {
          i++;
        }
        labels.add(first == i ? "" + (i - 4) : (first - 4) + ".." + (i - 4));
      }
    }
    return String.join(", ", labels);
  }

  private Step loop(int depth) {
    int control = PLAIN.length + loops;
    int first = random.nextInt(-128, 128);
    int step = random.nextInt(1, 60) * (random.nextBoolean() ? 1 : -1);
    int last = Math.max(-128, Math.min(127, first + step * random.nextInt(-1, 6)));
    text.append("FOR %s := %d TO %d BY %d DO\n".formatted(LOOP[loops], first, last, step));
    loops++;
    Step body = list(depth - 1);
    loops--;
    text.append("END_FOR;\n");
    return values -> {
      values[control] = first;
      for (int at = first; step > 0 ? at <= last : at >= last; at += step) {
        values[control] = at;
        if (body.exits(values)) {
          return false;
        }
        values[control] = at + step == (byte) (at + step) ? at + step : at;
      }
      return false;
    };
  }
}
