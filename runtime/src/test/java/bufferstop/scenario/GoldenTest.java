package bufferstop.scenario;

import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Golden;
import bufferstop.model.Scenario.Interval;
import bufferstop.model.Scenario.StoredRun;
import bufferstop.model.SourceText;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Runs compared with a stored one. */
class GoldenTest {
  private static final long SCAN = 10_000;

  /** Rows as {@code 0 1.5 1; 20 2.0 0}: milliseconds, x, p. */
  private static Expectation golden(String rows, long shiftMillis, String... tolerances) {
    String[] parts = rows.split("; ");
    long[] micros = new long[parts.length];
    List<List<String>> values = new ArrayList<>();
    for (int i = 0; i < parts.length; i++) {
      String[] fields = parts[i].split(" ");
      micros[i] = Long.parseLong(fields[0]) * 1000;
      values.add(List.of(fields[1], fields[2]));
    }
    List<Assignment> given = new ArrayList<>();
    for (int i = 0; i < tolerances.length; i += 2) {
      given.add(new Assignment(name(tolerances[i]), SourceText.of(tolerances[i + 1])));
    }
    StoredRun run = new StoredRun(name("run.csv"), List.of("x", "p"), micros, values);
    return new Golden(
        run, given, shiftMillis * 1000, Interval.WHOLE, "golden run.csv", "", Samples.HERE);
  }

  private static Name name(String text) {
    return new Name(text, Samples.HERE);
  }

  private static Samples run() {
    return new Samples(SCAN).real("x", "m", 1, 1, 2, 2, 2.5).bool("p", "00110");
  }

  @Test
  void theSameRunPassesWithAllOfItsToleranceLeft() {
    ExpectationResult result = run().only(golden("0 1 0; 20 2.0 1; 40 2.5 0", 0, "x", "0.25"));
    assertEquals(PASSED, result.verdict(), result.reason());
    assertEquals(0.25, result.margin(), 1e-12);
    assertEquals("m", result.unit());
  }

  @ParameterizedTest(name = "tolerance {0}: {1}")
  @CsvSource({"0.5, PASSED, 0.25", "0.25, PASSED, 0", "0.125, FAILED, -0.125"})
  void aNumberMayBeOffByItsTolerance(String tolerance, Verdict verdict, double margin) {
    ExpectationResult result = run().only(golden("0 1 0; 20 2.25 1; 40 2.5 0", 0, "*", tolerance));
    assertEquals(verdict, result.verdict(), result.reason());
    assertEquals(margin, result.margin(), 1e-9);
  }

  @Test
  void aFailureNamesBothValues() {
    ExpectationResult result = run().only(golden("0 1 0; 20 2.0 1; 30 2.0 0", 0));
    assertEquals(FAILED, result.verdict());
    assertEquals("`p` was TRUE at T#30ms and FALSE in the stored run", result.reason());
  }

  @ParameterizedTest(name = "shift {0} ms: {1}")
  @CsvSource({"0, FAILED", "9, FAILED", "10, PASSED"})
  void aChangeMayComeSoonerOrLaterByTheShift(long shift, Verdict verdict) {
    Samples late = new Samples(SCAN).real("x", "m", 1, 1, 1, 2, 2, 2).bool("p", "000111");
    Samples early = new Samples(SCAN).real("x", "m", 1, 2, 2, 2, 2, 2).bool("p", "011111");
    assertEquals(verdict, late.only(golden("0 1 0; 20 2 1", shift)).verdict());
    assertEquals(verdict, early.only(golden("0 1 0; 20 2 1", shift)).verdict());
  }

  @Test
  void aPulseThatOneOfThemLacksIsSeenHoweverShort() {
    // each value of the run is near one of the stored run, but its pulse is near none of the run
    Samples flat = new Samples(SCAN).real("x", "m", 1, 1, 1, 1, 1, 1).bool("p", "000000");
    ExpectationResult result = flat.only(golden("0 1 0; 20 1 1; 30 1 0", 10));
    assertEquals(FAILED, result.verdict());
    assertEquals("`p` was FALSE at T#20ms and TRUE in the stored run", result.reason());
    Samples pulse = new Samples(SCAN).real("x", "m", 1, 1, 1, 1, 1, 1).bool("p", "001000");
    assertEquals(FAILED, pulse.only(golden("0 1 0; 20 1 0", 10)).verdict());
  }

  @Test
  void anEmptyFieldSaysNothing() {
    StoredRun gaps =
        new StoredRun(
            name("run.csv"),
            List.of("p"),
            new long[] {0, 20_000},
            List.of(List.of("0"), List.of("")));
    Expectation golden =
        new Golden(gaps, List.of(), 0, Interval.WHOLE, "golden run.csv", "", Samples.HERE);
    ExpectationResult result = new Samples(SCAN).bool("p", "0010").only(golden);
    assertEquals(PASSED, result.verdict(), result.reason());
    assertNull(result.margin());
  }

  @Test
  void aStoredRunThatBeginsAfterTheEndProvesNothing() {
    assertEquals(INCONCLUSIVE, run().only(golden("100 1 0", 0)).verdict());
  }

  @Test
  void toleranceAndValueMustFit() {
    Diagnostics problems = new Diagnostics();
    run().judge(problems, golden("0 one 0", 0, "z", "1.0"));
    List<String> said = problems.sorted().stream().map(d -> d.message()).toList();
    assertTrue(said.contains("`one` is no value of `x`, LREAL"), "" + said);
    assertTrue(said.contains("the stored run has no column `z`"), "" + said);
  }
}
