package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Random charts against the rule itself. A failure names its seed; {@code -Dbufferstop.seed=N}
 * begins with the chart of that seed.
 */
class SequencesProperties {
  private static final long FIRST_SEED = Long.getLong("bufferstop.seed", 1);
  private static final int CHARTS = 300;
  private static final int SCANS = 40;

  private record Gate(List<Integer> from, List<Integer> to) {}

  /** The rule: which transitions clear, then deactivate, then activate. */
  private static final class Model {
    private final List<Gate> gates;
    private final Map<Integer, Long> entered = new TreeMap<>(Map.of(0, 0L)); // by active step
    private int crossings;
    private int contests;

    Model(List<Gate> gates) {
      this.gates = gates;
    }

    void scan(boolean[] conditions, long now) {
      List<Gate> clearing = new ArrayList<>();
      SortedSet<Integer> left = new TreeSet<>();
      for (int g = 0; g < conditions.length; g++) {
        Gate gate = gates.get(g);
        if (conditions[g] && entered.keySet().containsAll(gate.from)) {
          boolean contested = gate.from.stream().anyMatch(left::contains);
          contests += contested ? 1 : 0;
          if (!contested) {
            clearing.add(gate);
            left.addAll(gate.from);
          }
        }
      }
      entered.keySet().removeAll(left);
      clearing.forEach(gate -> gate.to.forEach(step -> entered.put(step, now)));
      crossings += clearing.size();
    }
  }

  private static List<Integer> someSteps(Random random, int steps) {
    SortedSet<Integer> some = new TreeSet<>();
    int count = random.nextInt(3) == 0 ? 2 : 1;
    for (int i = 0; i < count; i++) {
      some.add(random.nextInt(steps));
    }
    return List.copyOf(some);
  }

  private static List<String> names(List<Integer> steps) {
    return steps.stream().map(step -> "S" + step).toList();
  }

  private static SmallController controller(int steps, List<Gate> gates) {
    StringBuilder operator = new StringBuilder("operator:\n");
    StringBuilder chart = new StringBuilder("sequences:\n  seq:\n    steps:\n");
    for (int i = 0; i < steps; i++) {
      chart.append("      S%d: {%s}\n".formatted(i, i == 0 ? "initial: TRUE" : ""));
    }
    chart.append("    transitions:\n");
    for (int g = 0; g < gates.size(); g++) {
      operator.append("  c%d: {type: BOOL}\n".formatted(g));
      Gate gate = gates.get(g);
      chart.append(
          "      - {from: %s, to: %s, when: c%d}\n".formatted(names(gate.from), names(gate.to), g));
    }
    return SmallController.of(operator.toString() + chart);
  }

  @Test
  void aChartEvolvesBySetsOfTransitionsDeactivatingFirstActivatingLast() {
    int crossings = 0;
    int contests = 0;
    for (long seed = FIRST_SEED; seed < FIRST_SEED + CHARTS; seed++) {
      Model model = run(seed);
      crossings += model.crossings;
      contests += model.contests;
    }
    assertTrue(crossings > CHARTS, "hardly anything happened");
    assertTrue(contests > CHARTS, "hardly anything was contested");
  }

  private static Model run(long seed) {
    Random random = new Random(seed);
    int steps = 3 + random.nextInt(5);
    List<Gate> gates = new ArrayList<>();
    for (int g = 2 + random.nextInt(9); g > 0; g--) {
      gates.add(new Gate(someSteps(random, steps), someSteps(random, steps)));
    }
    SmallController on = controller(steps, gates);
    Model model = new Model(gates);
    long now = 0;
    for (int scan = 0; scan < SCANS; scan++) {
      boolean[] conditions = new boolean[gates.size()];
      for (int g = 0; g < conditions.length; g++) {
        conditions[g] = random.nextBoolean();
        on.set("c" + g, conditions[g] ? 1 : 0);
      }
      on.scanAt(now);
      model.scan(conditions, now);
      assertSame(model, on, now, "seed " + seed + ", scan " + scan + ", " + gates);
      now += 1 + random.nextInt(50);
    }
    return model;
  }

  private static void assertSame(Model model, SmallController on, long now, String where) {
    String expected = String.join(",", names(List.copyOf(model.entered.keySet())));
    assertEquals(expected.isEmpty() ? "-" : expected, on.trueOf("seq.*.X"), where);
    model.entered.forEach(
        (step, entered) -> assertEquals(now - entered, on.get("seq.S" + step + ".T"), where));
  }
}
