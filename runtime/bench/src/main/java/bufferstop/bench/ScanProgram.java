package bufferstop.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A made-up controller of a given size, once as a project and once as the Java that a careful
 * person would write by hand for the same job: fields and boolean operators, a switch for the
 * sequence, the same checks of overflow and NaN. One generator makes both, so they cannot drift
 * apart.
 */
final class ScanProgram {
  static final int BITS = 64;
  static final int REALS = 20;
  private static final int TIMERS = 50;
  private static final int COUNTERS = 20;
  private static final int STEPS = 30;
  private static final int RUNGS_A_METHOD = 50;

  private final int rungs;
  private final SplittableRandom random;
  private final StringBuilder blocks = new StringBuilder();
  private final StringBuilder logic = new StringBuilder();
  private final StringBuilder javaBlocks = new StringBuilder();
  private final StringBuilder javaFields = new StringBuilder();
  private final List<StringBuilder> javaLogic = new ArrayList<>();
  private final List<String> names = new ArrayList<>(); // BOOLs as the project writes them

  ScanProgram(int rungs, long seed) {
    this.rungs = rungs;
    random = new SplittableRandom(seed);
    for (int i = 0; i < BITS; i++) {
      names.add("i" + i);
    }
    for (int i = 0; i < TIMERS; i++) {
      timer(i);
    }
    for (int i = 0; i < COUNTERS; i++) {
      counter(i);
    }
    for (int i = 0; i < REALS; i++) {
      names.add("hot" + i);
    }
    comparisons();
    for (int i = 0; i < rungs; i++) {
      rung(i);
    }
  }

  private String any() {
    return names.get(random.nextInt(names.size()));
  }

  /** A name as Java writes it. */
  private static String java(String name) {
    return name.replace('.', '_');
  }

  private void timer(int i) {
    String in = any();
    int preset = 20 + random.nextInt(300);
    blocks.append("t%d: {block: TON, IN: %s, PT: T#%dms}\n".formatted(i, in, preset));
    javaFields.append("private final Ton t%d = new Ton();\n".formatted(i));
    javaFields.append("private boolean t%d_Q;\n".formatted(i));
    javaBlocks.append(
        "t%1$d_Q = t%1$d.step(%2$s, %3$d, now);\n".formatted(i, java(in), preset * 1000L));
    names.add("t" + i + ".Q");
  }

  private void counter(int i) {
    String up = any();
    String reset = any();
    int preset = 3 + random.nextInt(20);
    blocks.append("c%d: {block: CTU, CU: %s, R: %s, PV: %d}\n".formatted(i, up, reset, preset));
    javaFields.append("private final Ctu c%d = new Ctu();\n".formatted(i));
    javaFields.append("private boolean c%d_Q;\n".formatted(i));
    javaBlocks.append(
        "c%1$d_Q = c%1$d.step(%2$s, %3$s, %4$d);\n".formatted(i, java(up), java(reset), preset));
    names.add("c" + i + ".Q");
  }

  private void comparisons() {
    StringBuilder part = new StringBuilder();
    for (int i = 0; i < REALS; i++) {
      int other = random.nextInt(REALS);
      double limit = random.nextInt(100);
      logic.append("hot%d := r%d * 0.5 + r%d > %.1f;\n".formatted(i, i, other, limit));
      part.append("hot%1$d = above(hot%1$d, r%1$d, r%2$d, %3$.1f);\n".formatted(i, other, limit));
      javaFields.append("private boolean hot%d;\n".formatted(i));
    }
    javaLogic.add(part);
  }

  private void rung(int i) {
    StringBuilder project = new StringBuilder();
    StringBuilder java = new StringBuilder();
    String own = "q" + i;
    int groups = 1 + random.nextInt(3);
    for (int g = 0; g < groups; g++) {
      project.append(g == 0 ? "" : " OR ");
      java.append(g == 0 ? "" : " || ");
      int terms = 1 + random.nextInt(3);
      for (int t = 0; t < terms; t++) {
        boolean not = random.nextInt(3) == 0;
        String name = g == 1 && t == 0 ? own : any(); // some rungs hold themselves
        project.append(t == 0 ? "" : " AND ").append(not ? "NOT " : "").append(name);
        java.append(t == 0 ? "" : " && ").append(not ? "!" : "").append(java(name));
      }
    }
    logic.append("%s := %s;\n".formatted(own, project));
    if (i % RUNGS_A_METHOD == 0) {
      javaLogic.add(new StringBuilder());
    }
    javaLogic.get(javaLogic.size() - 1).append("%s = %s;\n".formatted(own, java));
    javaFields.append("private boolean %s;\n".formatted(own));
    if (names.size() < 400) {
      names.add(own);
    }
  }

  /** The text of project.yaml. */
  String project() {
    StringBuilder out = new StringBuilder("project: made up\nscan: T#10ms\ncontroller:\n");
    out.append("  operator:\n");
    for (int i = 0; i < BITS; i++) {
      out.append("    i%d: {type: BOOL}\n".formatted(i));
    }
    for (int i = 0; i < REALS; i++) {
      out.append("    r%d: {type: LREAL}\n".formatted(i));
    }
    out.append("  internal:\n");
    for (int i = 0; i < REALS; i++) {
      out.append("    hot%d: {type: BOOL}\n".formatted(i));
    }
    for (int i = 0; i < rungs; i++) {
      out.append("    q%d: {type: BOOL}\n".formatted(i));
    }
    for (int i = 0; i < STEPS; i++) {
      out.append("    a%d: {type: BOOL}\n".formatted(i));
    }
    out.append("  blocks:\n").append(blocks.toString().indent(4));
    out.append("  sequences:\n    s:\n      steps:\n");
    for (int i = 0; i < STEPS; i++) {
      String initial = i == 0 ? "initial: TRUE, " : "";
      out.append("        s%d: {%swithin: T#500ms, do: N a%d}\n".formatted(i, initial, i));
    }
    out.append("      transitions:\n");
    for (int i = 0; i < STEPS; i++) {
      out.append(
          "        - {from: s%d, to: s%d, when: %s}\n".formatted(i, (i + 1) % STEPS, when(i)));
    }
    out.append("  logic: |\n").append(logic.toString().indent(4));
    return out.toString();
  }

  private static String when(int step) {
    return "i" + step + " AND NOT i" + (step + 7);
  }

  /** The source of a class {@code ByHand} that is a {@link Controller}. */
  String java() {
    StringBuilder out = new StringBuilder("package made;\n");
    out.append("public final class ByHand implements bufferstop.bench.Controller {\n");
    out.append(javaFields);
    for (int i = 0; i < BITS; i++) {
      out.append("private boolean i%d;\n".formatted(i));
    }
    for (int i = 0; i < REALS; i++) {
      out.append("private double r%d;\n".formatted(i));
    }
    for (int i = 0; i < STEPS; i++) {
      out.append("private boolean a%d;\n".formatted(i));
    }
    out.append("private int step;\nprivate long since;\nprivate long stepTime;\n");
    out.append("private boolean late;\nprivate long errors;\n");
    out.append(
        "public void scan(boolean[] bits, double[] reals, long now) {\ninputs(bits, reals);\n");
    out.append("blocks(now);\nsequence(now);\n");
    for (int i = 0; i < javaLogic.size(); i++) {
      out.append("logic%d();\n".formatted(i));
    }
    out.append("actions();\n}\n");
    out.append("private void inputs(boolean[] bits, double[] reals) {\n");
    for (int i = 0; i < BITS; i++) {
      out.append("i%1$d = bits[%1$d];\n".formatted(i));
    }
    for (int i = 0; i < REALS; i++) {
      out.append("r%1$d = reals[%1$d];\n".formatted(i));
    }
    out.append("}\nprivate void blocks(long now) {\n").append(javaBlocks).append("}\n");
    for (int i = 0; i < javaLogic.size(); i++) {
      out.append("private void logic%d() {\n".formatted(i)).append(javaLogic.get(i)).append("}\n");
    }
    appendSequence(out);
    appendQuestions(out);
    return out.append(HELPERS).append("}\n").toString();
  }

  private void appendSequence(StringBuilder out) {
    out.append("private void sequence(long now) {\nstepTime = now - since;\nswitch (step) {\n");
    for (int i = 0; i < STEPS; i++) {
      String when = "i" + i + " && !i" + (i + 7);
      out.append(
          "case %d: if (%s) { enter(%d, now); } break;\n".formatted(i, when, (i + 1) % STEPS));
    }
    out.append("default: break;\n}\nlate = stepTime > 500000;\n}\n");
    out.append(
        "private void enter(int next, long now) { step = next; since = now; stepTime = 0; }\n");
    out.append("private void actions() {\n");
    for (int i = 0; i < STEPS; i++) {
      out.append("a%1$d = step == %1$d;\n".formatted(i));
    }
    out.append("}\n");
  }

  private void appendQuestions(StringBuilder out) {
    out.append("public int step() { return step; }\npublic long errors() { return errors; }\n");
    out.append("public boolean rung(int i) {\nreturn i < 200 ? first(i) : false;\n}\n");
    out.append("private boolean first(int i) {\nswitch (i) {\n");
    for (int i = 0; i < Math.min(rungs, 200); i++) {
      out.append("case %1$d: return q%1$d;\n".formatted(i));
    }
    out.append("default: return false;\n}\n}\n");
  }

  private static final String HELPERS =
      """
      private boolean above(boolean last, double a, double b, double limit) {
        double product = a * 0.5;
        double sum = product + b;
        if (!(Math.abs(product) <= Double.MAX_VALUE) || !(Math.abs(sum) <= Double.MAX_VALUE)) {
          errors++;
          return last;
        }
        return sum > limit;
      }
      private static final class Ton {
        private boolean timing;
        private boolean q;
        private long start;
        long et;
        boolean step(boolean in, long preset, long now) {
          if (!in) {
            timing = false;
            q = false;
            et = 0;
            return false;
          }
          if (!timing) {
            timing = true;
            start = now;
          }
          if (!q) {
            long elapsed = now - start;
            q = elapsed >= preset;
            et = Math.min(elapsed, preset);
          }
          return q;
        }
      }
      private static final class Ctu {
        private boolean last;
        int value;
        boolean step(boolean up, boolean reset, int preset) {
          if (reset) {
            value = 0;
          } else if (up && !last && value < 32767) {
            value++;
          }
          last = up;
          return value >= preset;
        }
      }
      """;
}
