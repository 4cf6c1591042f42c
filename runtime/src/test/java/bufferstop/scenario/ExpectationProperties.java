package bufferstop.scenario;

import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Interval;
import bufferstop.scenario.Definition.Value;
import bufferstop.scenario.Formula.Trace;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * The online monitors against a slow evaluation of the definitions over the whole trace, with
 * uneven samples and quantities of two units. Give {@code -Dbufferstop.seed=N} to repeat a run.
 */
class ExpectationProperties {
  private static final long SCAN = 10_000;
  private static final int RUNS = 3_000;

  private final long seed = Long.getLong("bufferstop.seed", 1);
  private final Random random = new Random(seed);

  /**
   * An expectation and what the definition says of it.
   *
   * @param value by unit; of null the truth
   * @param timeMargin seconds; null for none
   * @param vacuous it asked for nothing
   */
  private record Drawn(
      Expectation expectation,
      Function<Definition, Value> value,
      Double timeMargin,
      boolean vacuous) {}

  private interface Draw {
    Drawn draw(Trace trace);
  }

  private static Drawn plain(Expectation expectation, Function<Definition, Value> value) {
    return new Drawn(expectation, value, null, false);
  }

  private void agree(Draw draw) {
    Map<Verdict, Integer> verdicts = new EnumMap<>(Verdict.class);
    for (int run = 0; run < RUNS; run++) {
      Trace trace = Trace.draw(random, 1 + random.nextInt(14), SCAN);
      Drawn drawn = draw.draw(trace);
      ExpectationResult result = play(trace).only(drawn.expectation);
      String what =
          "seed " + seed + ", run " + run + ": " + drawn.expectation + " over " + show(trace);
      Verdict verdict = verdict(drawn, trace);
      assertEquals(verdict, result.verdict(), what);
      assertEquals(margins(drawn, trace, verdict), margins(result), what);
      verdicts.merge(verdict, 1, Integer::sum);
    }
    assertTrue(verdicts.getOrDefault(PASSED, 0) > RUNS / 20, "seed " + seed + ": " + verdicts);
    assertTrue(verdicts.getOrDefault(FAILED, 0) > RUNS / 20, "seed " + seed + ": " + verdicts);
  }

  private static Verdict verdict(Drawn drawn, Trace trace) {
    Value truth = drawn.value.apply(new Definition(trace, null));
    if (truth.high() < 0) {
      return FAILED;
    }
    return truth.low() > 0 && !drawn.vacuous ? PASSED : INCONCLUSIVE;
  }

  private static List<String> margins(Drawn drawn, Trace trace, Verdict verdict) {
    List<String> margins = new ArrayList<>();
    if (verdict != INCONCLUSIVE && drawn.timeMargin != null) {
      margins.add(drawn.timeMargin + " s");
    }
    for (String unit : List.of("m", "V")) {
      Value value = drawn.value.apply(new Definition(trace, unit));
      double margin = verdict == PASSED ? value.low() : value.high();
      if (verdict != INCONCLUSIVE && !Double.isInfinite(margin)) {
        margins.add(margin + 0.0 + " " + unit);
      }
    }
    return margins.stream().sorted().toList();
  }

  private static List<String> margins(ExpectationResult result) {
    List<String> margins = new ArrayList<>();
    if (result.margin() != null && !result.unit().equals("times")) {
      margins.add(result.margin() + " " + result.unit());
    }
    result.others().forEach(m -> margins.add(m.value() + " " + m.unit()));
    return margins.stream().sorted().toList();
  }

  private static Samples play(Trace trace) {
    StringBuilder p = new StringBuilder();
    for (boolean value : trace.p()) {
      p.append(value ? '1' : '0');
    }
    return new Samples(SCAN)
        .at(trace.t())
        .real("x", "m", trace.x())
        .real("y", "V", trace.y())
        .bool("p", p + "");
  }

  private static String show(Trace trace) {
    StringBuilder shown = new StringBuilder();
    for (int i = 0; i < trace.x().length; i++) {
      shown.append('(').append(trace.t()[i] / SCAN).append(": ").append(trace.x()[i]);
      shown.append(' ').append(trace.y()[i]).append(' ').append(trace.p()[i]).append(')');
    }
    return shown.toString();
  }

  /** Half periods, so that ends fall on samples and between them. */
  private long time(int longest) {
    return random.nextInt(2 * longest) * SCAN / 2;
  }

  private Interval interval() {
    long from = random.nextBoolean() ? 0 : time(5);
    return new Interval(from, random.nextInt(3) == 0 ? 0 : from + SCAN / 2 + time(8));
  }

  private static IntStream samples(Trace trace) {
    return IntStream.range(0, trace.x().length);
  }

  private static int next(Trace trace, Formula that, long from, long to) {
    return samples(trace)
        .filter(j -> trace.t()[j] >= from && trace.t()[j] <= to && that.holds(j))
        .findFirst()
        .orElse(-1);
  }

  private static boolean reached(Trace trace, Interval during) {
    return Arrays.stream(trace.t()).anyMatch(t -> t >= during.fromMicros())
        && Arrays.stream(trace.t()).anyMatch(during::holds);
  }

  @Test
  void alwaysIsTheMinimum() {
    agree(
        trace -> {
          Formula that = trace.formula(random, 2);
          Interval during = interval();
          return new Drawn(
              Samples.always(that.text(), during),
              d -> d.always(that, during),
              null,
              !reached(trace, during));
        });
  }

  @Test
  void neverIsAlwaysNot() {
    agree(
        trace -> {
          Formula that = trace.formula(random, 2);
          Interval during = interval();
          return new Drawn(
              Samples.never(that.text(), during),
              d -> d.never(that, during),
              null,
              !reached(trace, during));
        });
  }

  @Test
  void eventuallyIsTheMaximumAndTheTimeLeft() {
    agree(
        trace -> {
          Formula that =
              new Formula.Both(List.of(trace.formula(random, 2), trace.formula(random, 1)));
          Interval during = new Interval(time(3), 4 * SCAN + time(5));
          int at = next(trace, that, during.fromMicros(), during.toMicros());
          return new Drawn(
              Samples.eventually(that.text(), during),
              d -> d.eventually(that, during),
              at < 0 ? null : Double.valueOf((during.toMicros() - trace.t()[at]) / 1e6),
              false);
        });
  }

  @Test
  void untilIsItsDefinition() {
    agree(
        trace -> {
          Formula hold =
              new Formula.Either(List.of(trace.formula(random, 1), trace.formula(random, 1)));
          Formula until = trace.formula(random, 1);
          Interval during = new Interval(0, SCAN / 2 + time(10));
          Interval drawn = random.nextBoolean() ? during : new Interval(time(2), 11 * SCAN);
          int at = next(trace, until, drawn.fromMicros(), drawn.toMicros());
          return new Drawn(
              Samples.until(hold.text(), until.text(), drawn),
              d -> d.until(hold, until, drawn),
              at < 0 || !samples(trace).limit(at).allMatch(hold::holds)
                  ? null
                  : Double.valueOf((drawn.toMicros() - trace.t()[at]) / 1e6),
              false);
        });
  }

  @Test
  void precedenceIsAWeakUntil() {
    agree(
        trace -> {
          Formula never = trace.formula(random, 1);
          Formula before = trace.formula(random, 1);
          return plain(
              Samples.precedence(never.text(), before.text()), d -> d.precedence(never, before));
        });
  }

  @Test
  void responseIsAnEventuallyFromEverySampleOfItsCondition() {
    agree(
        trace -> {
          Formula when = trace.formula(random, 1);
          Formula that = trace.formula(random, 1);
          long after = random.nextBoolean() ? 0 : time(3);
          long within = after + time(4);
          return new Drawn(
              Samples.response(when.text(), after, within, that.text()),
              d -> d.response(when, after, within, that),
              timeLeft(trace, when, after, within, that),
              samples(trace).noneMatch(when::holds));
        });
  }

  /** The least time left of all that were answered; null when one was not. */
  private static Double timeLeft(Trace trace, Formula when, long after, long within, Formula that) {
    Double least = null;
    for (int i : samples(trace).filter(when::holds).toArray()) {
      long now = trace.t()[i];
      int answer = next(trace, that, now + after, now + within);
      if (answer < 0) {
        return null;
      }
      double left = (now + within - trace.t()[answer]) / 1e6;
      least = least == null ? Double.valueOf(left) : Double.valueOf(Math.min(least, left));
    }
    return least;
  }

  @Test
  void persistenceIsAnAlwaysFromEverySampleOfItsCondition() {
    agree(
        trace -> {
          Formula when = trace.formula(random, 1);
          Formula that =
              new Formula.Either(List.of(trace.formula(random, 1), trace.formula(random, 1)));
          long after = random.nextBoolean() ? 0 : time(3);
          long lasting = after + time(3);
          return new Drawn(
              Samples.persistence(when.text(), after, lasting, that.text()),
              d -> d.persistence(when, after, lasting, that),
              null,
              samples(trace).noneMatch(when::holds));
        });
  }

  @Test
  void stableIsAPersistenceFromEveryRise() {
    agree(
        trace -> {
          Formula that = trace.formula(random, 1);
          long lasting = SCAN / 2 + time(2);
          return new Drawn(
              Samples.stable(that.text(), lasting),
              d -> d.stable(that, lasting),
              over(trace, that, lasting),
              samples(trace).noneMatch(that::holds));
        });
  }

  /**
   * How much longer than asked for it stayed, the least; one still open that is short counts not.
   */
  private static Double over(Trace trace, Formula that, long lasting) {
    Double least = null;
    int last = trace.t().length - 1;
    for (int i = 0; i <= last; i++) {
      if (that.holds(i) && (i == 0 || !that.holds(i - 1))) {
        int end = i;
        while (end < last && that.holds(end + 1)) {
          end++;
        }
        long over = trace.t()[Math.min(end + 1, last)] - trace.t()[i] - lasting;
        boolean counts = end < last || over >= 0;
        if (counts && (least == null || over / 1e6 < least)) {
          least = over / 1e6;
        }
      }
    }
    return least;
  }

  @Test
  void atEndIsTheLastSample() {
    agree(
        trace -> {
          Formula that = trace.formula(random, 2);
          long end = trace.t()[trace.t().length - 1];
          return plain(Samples.atEnd(that.text()), d -> d.always(that, new Interval(end, 0)));
        });
  }

  @Test
  void countCountsRises() {
    agree(
        trace -> {
          Formula that = trace.formula(random, 1);
          Interval during = interval();
          long least = random.nextInt(3);
          long greatest = least + random.nextInt(3);
          long times =
              samples(trace)
                  .filter(i -> during.holds(trace.t()[i]))
                  .filter(i -> that.holds(i) && (i == 0 || !that.holds(i - 1)))
                  .count();
          long end = trace.t()[trace.t().length - 1];
          boolean open = during.isOpenAfter(end) || during.fromMicros() > end;
          double low = times > greatest ? -1 : open ? Double.NEGATIVE_INFINITY : times - least;
          double high = times > greatest ? -1 : open ? 1 : times - least;
          Value truth = new Value(low >= 0 ? 1 : low, high >= 0 ? 1 : high);
          Value none = new Value(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);
          return plain(
              Samples.count(that.text(), least, greatest, during),
              d -> d.unit() == null ? truth : none);
        });
  }
}
