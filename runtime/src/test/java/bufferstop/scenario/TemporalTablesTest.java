package bufferstop.scenario;

import static bufferstop.scenario.Samples.always;
import static bufferstop.scenario.Samples.atEnd;
import static bufferstop.scenario.Samples.count;
import static bufferstop.scenario.Samples.eventually;
import static bufferstop.scenario.Samples.persistence;
import static bufferstop.scenario.Samples.precedence;
import static bufferstop.scenario.Samples.response;
import static bufferstop.scenario.Samples.stable;
import static bufferstop.scenario.Samples.until;
import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Interval;
import bufferstop.scenario.ExpectationResult.Margin;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The tables of control-semantics 8.3 to 8.6 [computed there]. A row gives the value at each
 * sample: here the expectation is judged over the rest of the trace from that sample on.
 */
class TemporalTablesTest {
  private static final long SECOND = 1_000_000;
  private static final long SCAN = 100_000;
  private static final double[] X = {1.0, 2.0, 3.5, 4.2, 3.8, 2.5, 1.2, 0.5};

  private static ExpectationResult over(double[] values, Expectation expectation) {
    return new Samples(SECOND).real("x", "m", values).only(expectation);
  }

  /** The margin in metres; NaN when the verdict is open. */
  private static double metres(ExpectationResult result) {
    if (result.verdict() == INCONCLUSIVE) {
      return Double.NaN;
    }
    Stream<Margin> first =
        result.margin() == null
            ? Stream.of()
            : Stream.of(new Margin(result.margin(), result.unit(), result.atMicros()));
    return Stream.concat(first, result.others().stream())
        .filter(m -> m.unit().equals("m"))
        .mapToDouble(Margin::value)
        .findFirst()
        .orElseThrow();
  }

  private static void row(String expected, Expectation expectation) {
    String[] cells = expected.split(" ");
    assertEquals(X.length, cells.length);
    for (int i = 0; i < cells.length; i++) {
      double[] rest = Arrays.copyOfRange(X, i, X.length);
      double value = metres(over(rest, expectation));
      if (cells[i].equals("-")) {
        assertTrue(Double.isNaN(value), "sample " + i + ": " + value);
      } else {
        assertEquals(Double.parseDouble(cells[i]), value, 1e-12, "sample " + i);
      }
    }
  }

  private static Interval to(long seconds) {
    return new Interval(0, seconds * SECOND);
  }

  @Test
  void alwaysOfTheWorkedExample() {
    // "-" in the table marks windows past the end; from sample 5 on x is below 0.8 at the end, so
    // that the verdict is false all the same, by -0.3 [rule M6 of 8.3]
    row("0.2 1.2 1.7 0.4 -0.3 -0.3 -0.3 -0.3", always("x >= 0.8", to(3)));
  }

  @Test
  void eventuallyOfTheWorkedExample() {
    row("0.2 0.2 0.2 0.2 - - - -", eventually("x >= 4.0", to(4)));
    // true at samples 6 and 7 already, although their windows reach past the end
    row("2.0 1.0 -0.5 0.5 1.8 2.5 2.5 2.5", eventually("x <= 3.0", to(2)));
  }

  @Test
  void untilOfTheWorkedExample() {
    row("0.5 0.5 0.5 1.2 0.8 - - -", until("x <= 4.0", "x >= 3.0", to(4)));
    // with bounds [2,4]; at sample 2 and 3 x goes above 4 before, by 0.2, and below 3, by 0.5
    Interval late = new Interval(2 * SECOND, 4 * SECOND);
    row("0.5 0.5 -0.2 -0.5 - - - -", until("x <= 4.0", "x >= 3.0", late));
  }

  // M10 of 8.6: the backward pass of the untimed until
  @Test
  void untimedUntilIsTheBackwardPass() {
    row("0.5 0.5 0.5 1.2 0.8 -0.5 -1.8 -2.5", until("x <= 4.0", "x >= 3.0", Interval.WHOLE));
  }

  // last lines of 8.4: G[0,5] of the response at i = 0
  @ParameterizedTest(name = "within {0} s: {1}, margin {2} m, worst at {3} s")
  @CsvSource({"1, FAILED, -0.8, 3", "2, FAILED, -0.5, 2", "3, PASSED, 0.5, 2"})
  void responseOfTheWorkedExample(long seconds, Verdict verdict, double margin, long at) {
    ExpectationResult result = over(X, response("x >= 3.0", seconds * SECOND, "x <= 3.0"));
    assertEquals(verdict, result.verdict());
    assertEquals(margin, metres(result), 1e-12);
    Margin last =
        result.others().isEmpty()
            ? new Margin(result.margin(), result.unit(), result.atMicros())
            : result.others().get(result.others().size() - 1);
    assertEquals(at * SECOND, last.atMicros());
  }

  // table of 8.3: G[0,3](x - 0.8 >= 0) over growing traces
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    "1.0, INCONCLUSIVE, ",
    "1.0 2.0, INCONCLUSIVE, ",
    "1.0 2.0 0.5, FAILED, -0.3",
    "1.0 2.0 3.5 4.2, PASSED, 0.2",
  })
  void alwaysOverAGrowingTrace(String values, Verdict verdict, Double margin) {
    double[] x = Arrays.stream(values.split(" ")).mapToDouble(Double::parseDouble).toArray();
    ExpectationResult result = over(x, always("x >= 0.8", to(3)));
    assertEquals(verdict, result.verdict());
    if (margin != null) {
      assertEquals(margin, metres(result), 1e-12);
    }
  }

  // check table of 8.5, scan 100 ms, P = 0 1 1 1 0 0
  @ParameterizedTest(name = "stable for {0} ms: {1}")
  @CsvSource({"200, PASSED, 0.1", "300, FAILED, 0"})
  void minimumDuration(long millis, Verdict verdict, double margin) {
    ExpectationResult result =
        new Samples(SCAN).bool("p", "011100").only(stable("p", millis * 1000));
    assertEquals(verdict, result.verdict(), result.reason());
    assertEquals(margin, result.margin(), 1e-12);
    assertEquals("s", result.unit());
  }

  @Test
  void stableIsOpenWhenTheRunEndsFirst() {
    Samples samples = new Samples(SCAN).bool("p", "000111");
    assertEquals(INCONCLUSIVE, samples.only(stable("p", 3 * SCAN)).verdict());
    assertEquals(PASSED, new Samples(SCAN).bool("p", "0111").only(stable("p", 2 * SCAN)).verdict());
    assertEquals(
        INCONCLUSIVE, new Samples(SCAN).bool("p", "0000").only(stable("p", SCAN)).verdict());
  }

  // table of 8.6, w = 3; read as G[0,2] the numbers belong to samples 0 to 5
  @Test
  void slidingMinimum() {
    double[] samples = {4, 2, 5, 1, 3, 6, 2, 7};
    double[] least = {4, 2, 2, 1, 1, 1, 2, 2};
    SlidingExtreme minimum = new SlidingExtreme(false);
    for (int i = 0; i < samples.length; i++) {
      minimum.add(i, samples[i]);
      assertEquals(least[i], minimum.from(i - 2), "after " + i);
    }
    assertEquals(Double.POSITIVE_INFINITY, minimum.from(100));
  }

  // Dwyer et al., S precedes P: (not P) W S; same scan accepted [project choice, M8]
  @ParameterizedTest(name = "P {0}, S {1}: {2}")
  @CsvSource({
    "000110, 001000, PASSED",
    "000110, 000100, PASSED",
    "000110, 000010, FAILED",
    "000000, 000000, PASSED",
    "000110, 000000, FAILED",
  })
  void precedenceAcceptsTheSameScanAndANeverOfBoth(String p, String s, Verdict verdict) {
    Samples samples = new Samples(SCAN).bool("p", p).bool("s", s);
    assertEquals(verdict, samples.only(precedence("p", "s")).verdict());
  }

  // Konrad and Cheng, bounded invariance: G(P -> G[0,t] S)
  @ParameterizedTest(name = "S {0}, after {1} for {2} ms: {3}")
  @CsvSource({
    "0111100, 0, 300, PASSED",
    "0111000, 0, 300, FAILED",
    "0011100, 0, 300, FAILED",
    "0011100, 100, 300, PASSED",
    "0111111, 0, 600, INCONCLUSIVE",
  })
  void boundedInvariance(String s, long after, long lasting, Verdict verdict) {
    Samples samples = new Samples(SCAN).bool("p", "0100000").bool("s", s);
    ExpectationResult result = samples.only(persistence("p", after * 1000, lasting * 1000, "s"));
    assertEquals(verdict, result.verdict(), result.reason());
  }

  @Test
  void anAnswerBeforeItsWindowIsNone() {
    Samples samples = new Samples(SCAN).bool("p", "0100000").bool("s", "0110000");
    assertEquals(FAILED, samples.only(response("p", 2 * SCAN, 4 * SCAN, "s")).verdict());
    samples = new Samples(SCAN).bool("p", "0100000").bool("s", "0001000");
    ExpectationResult result = samples.only(response("p", 2 * SCAN, 4 * SCAN, "s"));
    assertEquals(PASSED, result.verdict());
    assertEquals(0.2, result.margin(), 1e-12);
  }

  @ParameterizedTest(name = "between {0} and {1}: {2}, {3} times to spare")
  @CsvSource({"2, 3, PASSED, 0", "1, 5, PASSED, 1", "3, 4, FAILED, -1", "0, 1, FAILED, -1"})
  void countsHowOftenAConditionComesTrue(long least, long greatest, Verdict verdict, double left) {
    Samples samples = new Samples(SCAN).bool("p", "0110100");
    ExpectationResult result = samples.only(count("p", least, greatest, Interval.WHOLE));
    assertEquals(verdict, result.verdict());
    assertEquals(left, result.margin());
    assertEquals("times", result.unit());
  }

  @Test
  void countsInItsIntervalAlone() {
    Interval middle = new Interval(2 * SCAN, 4 * SCAN);
    // TRUE already when the interval begins, so only the second pulse counts
    ExpectationResult result =
        new Samples(SCAN).bool("p", "0110100").only(count("p", 1, 1, middle));
    assertEquals(PASSED, result.verdict());
    assertEquals(
        INCONCLUSIVE, new Samples(SCAN).bool("p", "011").only(count("p", 0, 1, middle)).verdict());
    assertEquals(
        FAILED, new Samples(SCAN).bool("p", "01010").only(count("p", 0, 0, middle)).verdict());
  }

  @Test
  void atEndLooksAtTheLastScanAlone() {
    assertEquals(FAILED, over(X, atEnd("x >= 1.0")).verdict());
    ExpectationResult result = over(X, atEnd("x <= 1.0"));
    assertEquals(PASSED, result.verdict());
    assertEquals(0.5, result.margin());
    assertEquals(7 * SECOND, result.atMicros());
  }

  @Test
  void aFailureShowsEachPartOfItsCondition() {
    Samples samples = new Samples(SECOND).real("x", "m", 1, 2).bool("p", "11").bool("q", "10");
    ExpectationResult result = samples.only(always("p AND (x < 1.5 OR NOT p)"));
    assertEquals(FAILED, result.verdict());
    assertEquals(
        List.of("`p` is TRUE", "`x < 1.5` is FALSE by 0.5 m", "`NOT p` is FALSE"),
        result.values().subList(0, 3));
    assertTrue(result.values().get(3).startsWith("p = TRUE since"), "" + result.values());
  }
}
