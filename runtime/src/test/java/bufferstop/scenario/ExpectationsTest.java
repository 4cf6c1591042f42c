package bufferstop.scenario;

import static bufferstop.scenario.Samples.always;
import static bufferstop.scenario.Samples.eventually;
import static bufferstop.scenario.Samples.never;
import static bufferstop.scenario.Samples.response;
import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.Eventually;
import bufferstop.model.Scenario.Interval;
import bufferstop.model.SourceText;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ExpectationsTest {
  private static final long SECOND = 1_000_000;
  private static final long SCAN = 100_000;

  /** The worked example of the reference, control-semantics 8.4 [computed there]. */
  private static final double[] X = {1.0, 2.0, 3.5, 4.2, 3.8, 2.5, 1.2, 0.5};

  private static Samples x(double... values) {
    return new Samples(SECOND).real("x", "m", values);
  }

  private static void check(Verdict verdict, double margin, long atMicros, ExpectationResult r) {
    assertEquals(verdict, r.verdict(), r.reason());
    assertEquals(margin, r.margin(), 1e-12);
    assertEquals(atMicros, r.atMicros());
  }

  // Source: G[0,3](x - 0.8 >= 0) over growing traces, control-semantics 8.3 [computed there].
  @ParameterizedTest(name = "first {0} samples of {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "3 | 1.0 2.0 0.5 | FAILED | -0.3 | 2",
        "4 | 1.0 2.0 3.5 4.2 | PASSED | 0.2 | 0",
        "8 | 1.0 2.0 3.5 4.2 3.8 2.5 1.2 0.5 | FAILED | -0.3 | 7",
      })
  void alwaysIsAsFarFromFailingAsItsWorstSample(
      int samples, String values, Verdict verdict, double margin, long atSeconds) {
    double[] parsed = Arrays.stream(values.split(" ")).mapToDouble(Double::parseDouble).toArray();
    ExpectationResult result = x(parsed).only(always("x >= 0.8"));
    assertEquals(samples, parsed.length);
    check(verdict, margin, atSeconds * SECOND, result);
    assertEquals("m", result.unit());
  }

  @Test
  void neverIsTheSameTurnedRound() {
    check(FAILED, -0.2, 3 * SECOND, x(X).only(never("x > 4.0")));
    check(PASSED, 0.8, 3 * SECOND, x(X).only(never("x > 5.0")));
  }

  @Test
  void theMarginOfAFailureIsItsWorstMomentAndTheReasonItsFirst() {
    ExpectationResult result = x(X).only(always("x <= 3.6"));
    check(FAILED, -0.6, 3 * SECOND, result);
    assertEquals("it was FALSE at T#3s", result.reason());
    result = x(1, 4, 5, 1).only(always("x <= 3.0"));
    check(FAILED, -2, 2 * SECOND, result);
    assertEquals("it was FALSE at T#1s", result.reason());
    assertEquals(List.of("x = 4 m since T#1s; before: 1 m from T#0s"), result.values());
  }

  // Source: row F[0,4](x - 4 >= 0) at i = 0 of 8.4 [computed there]; the margin is the time left.
  @Test
  void eventuallyHasTheTimeLeftAsItsMargin() {
    ExpectationResult result = x(X).only(eventually("x >= 4.0", 4 * SECOND));
    check(PASSED, 1.0, 3 * SECOND, result);
    assertEquals("s", result.unit());
  }

  @Test
  void eventuallyFailsByItsClosestSample() {
    ExpectationResult result = x(X).only(eventually("x >= 5.0", 4 * SECOND));
    check(FAILED, -0.8, 4 * SECOND, result);
    assertEquals("m", result.unit());
    check(FAILED, -0.5, 2 * SECOND, x(X).only(eventually("x >= 4.0", 2 * SECOND)));
  }

  @Test
  void eventuallyTakesASampleAtItsLastMoment() {
    check(PASSED, 0.0, 3 * SECOND, x(X).only(eventually("x >= 4.0", 3 * SECOND)));
  }

  @Test
  void eventuallyIsOpenWhenTheRunEndsFirst() {
    // M6 of 8.3: F is unknown while its window reaches past the trace and no sample satisfies
    ExpectationResult result = x(1, 2, 3).only(eventually("x >= 4.0", 3 * SECOND));
    assertEquals(INCONCLUSIVE, result.verdict());
    assertNull(result.margin());
    check(PASSED, 7.0, 3 * SECOND, x(X).only(eventually("x >= 4.0", 10 * SECOND)));
  }

  @Test
  void eventuallyWithoutATimeMeansTheWholeRun() {
    assertEquals(PASSED, x(X).only(eventually("x <= 0.5", 0)).verdict());
    check(FAILED, -0.3, 7 * SECOND, x(X).only(eventually("x >= 4.5", 0)));
  }

  // Source: response on BOOL signals, scan 100 ms, last item of 8.4 [computed there].
  @ParameterizedTest(name = "within {0} ms: {1}")
  @CsvSource({"200, FAILED", "300, PASSED"})
  void responseOfTheWorkedExample(long withinMillis, Verdict verdict) {
    Samples samples = new Samples(SCAN).bool("request", "011000010000");
    samples.bool("answer", "000100000010");
    ExpectationResult result = samples.only(response("request", withinMillis * 1000, "answer"));
    assertEquals(verdict, result.verdict(), result.reason());
  }

  @Test
  void responseTellsWhichRequestWasNotAnswered() {
    Samples samples = new Samples(SCAN).bool("request", "011000010000");
    samples.bool("answer", "000100000010");
    ExpectationResult result = samples.only(response("request", 2 * SCAN, "answer"));
    assertEquals(9 * SCAN, result.atMicros());
    assertEquals("the condition held at T#700ms and no answer came up to T#900ms", result.reason());
  }

  @Test
  void responseHasTheLeastTimeLeftAsItsMargin() {
    Samples samples = new Samples(SCAN).bool("request", "010000100010000");
    samples.bool("answer", "000100000100001");
    check(PASSED, 0.1, 14 * SCAN, samples.only(response("request", 5 * SCAN, "answer")));
  }

  // Source: (x - 3 >= 0) -> F[0,b](3 - x >= 0) under G, 8.4 [computed there]: with b = 2 violated
  // at
  // i = 2, with b = 3 settled although the last window reaches past the trace.
  @ParameterizedTest(name = "within {0} s: {1}")
  @CsvSource({"1, FAILED", "2, FAILED", "3, PASSED"})
  void responseOnAQuantity(long withinSeconds, Verdict verdict) {
    ExpectationResult result = x(X).only(response("x >= 3.0", withinSeconds * SECOND, "x <= 3.0"));
    assertEquals(verdict, result.verdict(), result.reason());
  }

  // Source: check table of 8.5, scan 100 ms, P = 0 1 1 1 0 0 [computed there], the rows that a
  // response can say: maximum duration and bounded recurrence.
  @ParameterizedTest(name = "when {0} within {1} ms that {2}: {3}")
  @CsvSource({
    "p, 300, NOT p, PASSED",
    "p, 200, NOT p, FAILED",
    "TRUE, 200, p, INCONCLUSIVE",
  })
  void responseInTimedPatterns(String when, long millis, String that, Verdict verdict) {
    Samples samples = new Samples(SCAN).bool("p", "011100");
    assertEquals(verdict, samples.only(response(when, millis * 1000, that)).verdict());
  }

  @Test
  void responseAcceptsAnAnswerInTheSameScan() {
    // M8 of 8.5: same scan accepted [project choice]
    Samples samples = new Samples(SCAN).bool("p", "0100").bool("s", "0100");
    check(PASSED, 0.0, SCAN, samples.only(response("p", 0, "s")));
  }

  @Test
  void responseIsOpenWhenTheRunEndsBeforeItsTime() {
    Samples samples = new Samples(SCAN).bool("p", "0001").bool("s", "0000");
    assertEquals(INCONCLUSIVE, samples.only(response("p", SCAN, "s")).verdict());
  }

  @Test
  void responseProvesNothingWhenItsConditionNeverHeld() {
    Samples samples = new Samples(SCAN).bool("p", "0000").bool("s", "1111");
    ExpectationResult result = samples.only(response("p", SCAN, "s"));
    assertEquals(INCONCLUSIVE, result.verdict());
    assertEquals("its condition `p` never held", result.reason());
  }

  @ParameterizedTest
  @CsvSource({"always p, PASSED", "always NOT p, FAILED", "never NOT p, PASSED", "never p, FAILED"})
  void boolConditionsHaveNoMargin(String expectation, Verdict verdict) {
    String that = expectation.substring(expectation.indexOf(' ') + 1);
    Samples samples = new Samples(SCAN).bool("p", "111");
    ExpectationResult result =
        samples.only(expectation.startsWith("always") ? always(that) : never(that));
    assertEquals(verdict, result.verdict());
    assertNull(result.margin());
    assertEquals(verdict == PASSED ? -1 : 0, result.atMicros());
  }

  // p is TRUE in the first two scans, x runs 1, 2, 3, 4, y runs 9, 8, 7, 5; min over AND, max over
  // OR, negated by NOT, for each unit apart, the rest as it is: 8.2 [from memory, not re-read]
  @ParameterizedTest(name = "always {0}: {1}, margins {2}")
  @CsvSource({
    "x < 5.0 AND y > 4.0, PASSED, 1 m at 3 + 1 V at 3",
    "x < 5.0 AND y > 4.5, PASSED, 1 m at 3 + 0.5 V at 3",
    "x < 2.5 OR y < 7.5, PASSED, 0.5 m at 1 + 0.5 V at 2",
    "x < 5.0 OR y < 9.5, PASSED, ''", // either alone is enough, so neither alone can break it
    "p OR x >= 2.5, PASSED, 0.5 m at 2",
    "NOT (x > 4.5), PASSED, 0.5 m at 3",
    "p OR x >= 3.5, FAILED, -0.5 m at 2",
    "x <> 5.0, PASSED, 1 m at 3",
    "x = 1.0, FAILED, -3 m at 3",
    "x + y > 8.0, PASSED, 1 m at 3",
    "x < 5.0 AND y > 6.0, FAILED, -1 V at 3", // x alone could not have saved it
  })
  void mixedConditionsHaveAMarginInEachUnit(String that, Verdict verdict, String margins) {
    Samples samples = x(1, 2, 3, 4).real("y", "V", 9, 8, 7, 5).bool("p", "1100");
    ExpectationResult result = samples.only(always(that));
    assertEquals(verdict, result.verdict());
    assertEquals(margins, margins(result));
  }

  private static String margins(ExpectationResult result) {
    List<String> all = new ArrayList<>();
    if (result.margin() != null) {
      all.add(shown(result.margin(), result.unit(), result.atMicros()));
    }
    result.others().forEach(m -> all.add(shown(m.value(), m.unit(), m.atMicros())));
    return String.join(" + ", all);
  }

  private static String shown(double margin, String unit, long atMicros) {
    return Values.number(margin) + " " + unit + " at " + atMicros / SECOND;
  }

  @Test
  void aFailureDecidedByABoolPartHasNoMargin() {
    ExpectationResult result = x(1, 2).bool("p", "10").only(always("p AND x > 0.0"));
    assertEquals(FAILED, result.verdict());
    assertNull(result.margin());
    assertEquals(SECOND, result.atMicros());
  }

  @Test
  void aMarginOfTimesIsInSeconds() {
    Samples samples = new Samples(SCAN).time("t", 0, 250_000, 500_000);
    ExpectationResult result = samples.only(always("t < T#2s"));
    check(PASSED, 1.5, 2 * SCAN, result);
    assertEquals("s", result.unit());
  }

  @Test
  void theUserMayNameTheUnit() {
    SourceText that = SourceText.of("x < 3.0");
    Samples samples = new Samples(SCAN).real("x", "", 1, 2);
    assertEquals(
        "kg", samples.only(new Always(that, Interval.WHOLE, "always", "kg", Samples.HERE)).unit());
    that = SourceText.of("x > 3.0");
    samples = new Samples(SCAN).real("x", "", 1, 2);
    ExpectationResult result =
        samples.only(new Eventually(that, new Interval(0, SCAN), "eventually", "kg", Samples.HERE));
    check(FAILED, -1, SCAN, result);
    assertEquals("kg", result.unit());
  }

  @Test
  void neverTakesSeveralHazardsAndMeasuresEachInItsUnit() {
    Samples samples = x(0, 1, 2, 1).real("y", "V", 0, 5, 6, 0);
    samples.bool("h1", "0000").bool("h2", "0000");
    samples.condition("h1", "x > 3.0").condition("h2", "y > 6.5");
    ExpectationResult result = samples.only(never("h1 OR h2"));
    check(PASSED, 1.0, 2 * SECOND, result);
    assertEquals("1 m at 2 + 0.5 V at 2", margins(result));
  }

  @Test
  void aHazardIsJudgedByItsOwnValueAndShowsWhatItReads() {
    Samples samples = x(0, 1, 2, 1).bool("h", "0010").condition("h", "x > 3.0");
    ExpectationResult result = samples.only(never("h"));
    check(FAILED, 0.0, 2 * SECOND, result);
    assertTrue(result.values().get(0).startsWith("h = TRUE since T#2s"), "" + result.values());
    assertTrue(result.values().get(1).startsWith("x = 2 m since T#2s"), "" + result.values());
  }
}
