package bufferstop.scenario;

import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Scenario.Expectation;
import bufferstop.scenario.Formula.Trace;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * The online monitors against a slow evaluation of the definitions over the whole trace. Give
 * {@code -Dbufferstop.seed=N} to repeat a run.
 */
class ExpectationProperties {
  private static final long SCAN = 10_000;
  private static final int RUNS = 3_000;

  private final long seed = Long.getLong("bufferstop.seed", 1);
  private final Random random = new Random(seed);

  /** What the definitions say. */
  private record Said(Verdict verdict, Double margin) {

    /** A margin of nothing is none. */
    static Said of(Verdict verdict, double margin) {
      return new Said(verdict, Double.isInfinite(margin) ? null : Double.valueOf(margin + 0.0));
    }
  }

  /** Draws one expectation and says what it comes to. */
  private interface Draw {
    Said draw(Trace trace, Expectation[] drawn);
  }

  private void agree(Draw draw) {
    Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
    for (int run = 0; run < RUNS; run++) {
      int samples = 1 + random.nextInt(12);
      Trace trace = Trace.draw(random, samples);
      Expectation[] drawn = new Expectation[1];
      Said said = draw.draw(trace, drawn);
      ExpectationResult result = play(trace).only(drawn[0]);
      String what =
          "seed " + seed + ", run " + run + ": " + drawn[0].text() + " over " + show(trace);
      assertEquals(said, new Said(result.verdict(), result.margin()), what);
      verdicts.merge(said.verdict(), 1, Integer::sum);
    }
    assertTrue(verdicts.getOrDefault(PASSED, 0) > RUNS / 20, "seed " + seed + ": " + verdicts);
    assertTrue(verdicts.getOrDefault(FAILED, 0) > RUNS / 20, "seed " + seed + ": " + verdicts);
  }

  private static Samples play(Trace trace) {
    StringBuilder p = new StringBuilder();
    for (boolean value : trace.p()) {
      p.append(value ? '1' : '0');
    }
    return new Samples(SCAN).real("x", "", trace.x()).real("y", "", trace.y()).bool("p", p + "");
  }

  private static String show(Trace trace) {
    StringBuilder shown = new StringBuilder();
    for (int i = 0; i < trace.x().length; i++) {
      shown.append('(').append(trace.x()[i]).append(' ').append(trace.y()[i]).append(' ');
      shown.append(trace.p()[i]).append(')');
    }
    return shown.toString();
  }

  private static IntStream samples(Trace trace) {
    return IntStream.range(0, trace.x().length);
  }

  @Test
  void alwaysIsTheMinimum() {
    agree(
        (trace, drawn) -> {
          Formula that = trace.formula(random, 2);
          drawn[0] = Samples.always(that.text());
          return Said.of(
              samples(trace).allMatch(that::holds) ? PASSED : FAILED,
              samples(trace).mapToDouble(that::robustness).min().orElseThrow());
        });
  }

  @Test
  void neverIsAlwaysNot() {
    agree(
        (trace, drawn) -> {
          Formula that = trace.formula(random, 2);
          drawn[0] = Samples.never(that.text());
          return Said.of(
              samples(trace).noneMatch(that::holds) ? PASSED : FAILED,
              samples(trace).mapToDouble(i -> -that.robustness(i)).min().orElseThrow());
        });
  }

  @Test
  void eventuallyIsTheFirstMomentOrTheMaximum() {
    agree(
        (trace, drawn) -> {
          Formula that =
              new Formula.Both(List.of(trace.formula(random, 2), trace.formula(random, 1)));
          long within = 1 + random.nextInt(12) * SCAN / 2;
          drawn[0] = Samples.eventually(that.text(), within);
          IntStream first =
              samples(trace).filter(i -> i * SCAN <= within && that.holds(i)).limit(1);
          int at = first.findFirst().orElse(-1);
          if (at >= 0) {
            return Said.of(PASSED, (within - at * SCAN) / 1e6);
          }
          if ((trace.x().length - 1) * SCAN < within) {
            return new Said(INCONCLUSIVE, null);
          }
          return Said.of(
              FAILED,
              samples(trace)
                  .filter(i -> i * SCAN <= within)
                  .mapToDouble(that::robustness)
                  .max()
                  .orElseThrow());
        });
  }

  @Test
  void responseIsAnEventuallyFromEverySampleOfItsCondition() {
    agree(
        (trace, drawn) -> {
          Formula when = trace.formula(random, 1);
          Formula that = trace.formula(random, 1);
          long within = random.nextInt(8) * SCAN / 2;
          drawn[0] = Samples.response(when.text(), within, that.text());
          return response(trace, when, within, that);
        });
  }

  private static Said response(Trace trace, Formula when, long within, Formula that) {
    int last = trace.x().length - 1;
    boolean failed = false;
    boolean open = false;
    double least = Double.POSITIVE_INFINITY;
    for (int i : samples(trace).filter(when::holds).toArray()) {
      long until = i * SCAN + within;
      int answer =
          samples(trace)
              .filter(j -> j >= i && j * SCAN <= until && that.holds(j))
              .findFirst()
              .orElse(-1);
      failed |= answer < 0 && last * SCAN >= until;
      open |= answer < 0 && last * SCAN < until;
      least = answer < 0 ? least : Math.min(least, (until - answer * SCAN) / 1e6);
    }
    if (failed) {
      return new Said(FAILED, null);
    }
    boolean never = samples(trace).noneMatch(when::holds);
    return open || never ? new Said(INCONCLUSIVE, null) : Said.of(PASSED, least);
  }
}
