package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Random charts that are held, stepped by hand, aborted, and that run another: what must hold
 * whatever they look like. Each scan also runs both compiled and as it stands. A failure names its
 * seed; {@code -Dbufferstop.seed=N} begins with the chart of that seed.
 */
class ControlledSequencesProperties {
  private static final long FIRST_SEED = Long.getLong("bufferstop.seed", 1);
  private static final int CHARTS = 150;
  private static final int SCANS = 60;
  private static final String[] COMMANDS = {"off", "pause", "go_on", "hand", "next"};

  private final List<String> seen = new ArrayList<>(); // which invariants were put to the test

  private static SmallController chart(SplittableRandom random, int steps) {
    StringBuilder yaml = new StringBuilder("operator:\n");
    for (String command : COMMANDS) {
      yaml.append("  %s: {type: BOOL}\n".formatted(command));
    }
    for (int i = 0; i < 2 * steps; i++) {
      yaml.append("  c%d: {type: BOOL}\n".formatted(i));
    }
    yaml.append("sequences:\n  outer:\n");
    yaml.append("    abort: {when: off, to: S0}\n");
    yaml.append("    hold: {when: pause, restart: go_on}\n");
    yaml.append("    manual: {when: hand, next: next}\n    steps:\n");
    for (int i = 0; i < steps; i++) {
      String first = i == 0 ? "initial: TRUE" : i == 1 ? "run: inner" : "";
      yaml.append("      S%d: {%s}\n".formatted(i, first));
    }
    yaml.append("    transitions:\n");
    for (int i = 0; i < 2 * steps; i++) {
      int to = i < steps ? (i + 1) % steps : random.nextInt(steps);
      yaml.append("      - {from: S%d, to: S%d, when: c%d}\n".formatted(i % steps, to, i));
    }
    yaml.append("  inner:\n    steps: {A: {initial: TRUE}, B: {final: TRUE}}\n");
    yaml.append("    transitions: [{from: A, to: B, when: c0}]\n");
    return SmallController.of(yaml.toString());
  }

  @Test
  void holdManualAbortAndRunKeepWhatTheyPromise() {
    for (long seed = FIRST_SEED; seed < FIRST_SEED + CHARTS; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      int steps = 3 + random.nextInt(4);
      SmallController on = chart(random, steps);
      long now = 0;
      for (int scan = 0; scan < SCANS; scan++) {
        for (String command : COMMANDS) {
          on.set(command, random.nextInt(command.equals("next") ? 3 : 6) == 0 ? 1 : 0);
        }
        for (int i = 0; i < 2 * steps; i++) {
          on.set("c" + i, random.nextInt(3) == 0 ? 1 : 0);
        }
        scan(on, now, steps, "seed " + seed + ", scan " + scan);
        now += 1 + random.nextInt(50);
      }
    }
    for (String invariant : List.of("aborted", "held", "by hand", "run", "empty", "done")) {
      assertTrue(seen.stream().filter(invariant::equals).count() > CHARTS, invariant);
    }
  }

  private void scan(SmallController on, long now, int steps, String where) {
    String before = on.trueOf("outer.*.X");
    long time = time(on, before);
    long edges = on.get("next");
    on.scanAt(now);
    String after = on.trueOf("outer.*.X");
    assertEquals(1, after.split(",").length, where + ": a chain has one active step, " + after);
    if (on.get("off") == 1) {
      seen.add("aborted");
      assertEquals("S0", after, where);
      assertEquals(0, on.get("outer.held"), where);
    } else if (on.get("outer.held") == 1) {
      seen.add("held");
      assertEquals(before, after, where);
      assertEquals(time, time(on, after), where + ": time in a step that is held");
    } else if (on.get("outer.manual") == 1 && edges == 0) {
      seen.add("by hand");
      assertEquals(before, after, where);
    }
    boolean runs = after.equals("S1");
    seen.add(runs ? "run" : "empty");
    assertEquals(runs ? 1 : 0, count(on.trueOf("inner.*.X")), where + ": of the one that is run");
    assertEquals(on.get("inner.B.X"), on.get("inner.done"), where);
    if (on.get("inner.done") == 1) {
      seen.add("done");
    }
  }

  private static long time(SmallController on, String step) {
    return on.get("outer." + step + ".T");
  }

  private static int count(String names) {
    return names.equals("-") ? 0 : names.split(",").length;
  }
}
