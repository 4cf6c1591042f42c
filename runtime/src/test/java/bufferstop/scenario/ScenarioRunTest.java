package bufferstop.scenario;

import static bufferstop.scenario.Samples.always;
import static bufferstop.scenario.Samples.eventually;
import static bufferstop.scenario.Samples.response;
import static bufferstop.scenario.Verdict.FAILED;
import static bufferstop.scenario.Verdict.INCONCLUSIVE;
import static bufferstop.scenario.Verdict.PASSED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostic.Severity;
import bufferstop.model.Diagnostics;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScenarioRunTest {
  private static final long SCAN = 10_000;

  private static Samples samples() {
    return new Samples(SCAN).bool("p", "0011110000").bool("yes", "1111111111");
  }

  @Test
  void scansFromZeroUpToItsTime() {
    ScenarioResult result = samples().judge(always("yes"));
    assertEquals(10, result.scans());
    assertEquals(PASSED, result.verdict());
  }

  // p shows in scan 2 first, at 20 ms
  @ParameterizedTest(name = "when {0} after {1} ms: {2}")
  @CsvSource({
    ", 0, d before scan 0",
    ", 30, d before scan 3",
    ", 31, d before scan 4",
    "p, 0, d before scan 3", // the soonest there is
    "p, 10, d before scan 3",
    "p, 30, d before scan 5",
    "NOT p, 0, d before scan 1", // before the first scan nothing shows
  })
  void doesADeedAtItsMoment(String when, long afterMillis, String act) {
    Samples samples = samples().deed(when, afterMillis * 1000, "d", 0);
    assertEquals(PASSED, samples.judge(always("yes")).verdict());
    assertEquals(List.of(act), samples.acts());
  }

  @ParameterizedTest(name = "at {0} ms for {1} ms: scans {2} to {3}")
  @CsvSource({"20, 30, 2, 5", "20, 1, 2, 3", "11, 2, 2, 3", "11, 20, 2, 4", "0, 25, 0, 3"})
  void undoesADeedAfterItsTimeButNotBeforeAScan(long at, long lasts, int from, int to) {
    Samples samples = samples().deed(null, at * 1000, "d", lasts * 1000);
    samples.judge(always("yes"));
    assertEquals(List.of("d before scan " + from, "d ends before scan " + to), samples.acts());
  }

  @Test
  void doesDeedsOfOneMomentInTheirOrder() {
    Samples samples = samples().deed(null, SCAN, "b", 0).deed(null, SCAN, "a", 0);
    samples.judge(always("yes"));
    assertEquals(List.of("b before scan 1", "a before scan 1"), samples.acts());
  }

  @Test
  void provesNothingWhenADeedsConditionNeverHeld() {
    ScenarioResult result = samples().deed("NOT yes", 0, "d", 0).judge(always("yes"));
    assertEquals(INCONCLUSIVE, result.verdict());
    assertEquals(PASSED, result.expectations().get(0).verdict());
    assertEquals(
        List.of("`NOT yes` never held, so the stimulus at line 1:1 was not done"), result.notes());
  }

  @ParameterizedTest(name = "when {0} after {1} ms")
  @CsvSource({", 91", "p, 80"})
  void provesNothingWhenADeedsMomentLiesAfterTheEnd(String when, long afterMillis) {
    Samples samples = samples().deed(when, afterMillis * 1000, "d", 0);
    ScenarioResult result = samples.judge(always("yes"));
    assertEquals(INCONCLUSIVE, result.verdict());
    assertEquals(1, result.notes().size());
    assertEquals(List.of(), samples.acts());
  }

  @Test
  void cannotJudgeWhatCannotBeObserved() {
    Diagnostics problems = new Diagnostics();
    ScenarioResult result =
        samples().judge(problems, always("yes"), always("alarms.gone AND yes"), always("yes"));
    assertEquals(INCONCLUSIVE, result.verdict());
    assertEquals(
        List.of(PASSED, INCONCLUSIVE, PASSED),
        result.expectations().stream().map(ExpectationResult::verdict).toList());
    assertEquals("`alarms.gone` cannot be observed here", result.expectations().get(1).reason());
    assertEquals(1, problems.sorted().size());
    assertEquals(Severity.WARNING, problems.sorted().get(0).severity());
  }

  @ParameterizedTest
  @CsvSource({"yes + 1", "p AND", "T#1s"})
  void refusesWhatIsNoCondition(String that) {
    Diagnostics problems = new Diagnostics();
    assertEquals(INCONCLUSIVE, samples().judge(problems, always(that)).verdict());
    assertTrue(problems.hasErrors());
  }

  @Test
  void failedBeatsInconclusiveBeatsPassed() {
    ScenarioResult open =
        samples().judge(always("yes"), response("NOT yes", SCAN, "p"), always("yes"));
    assertEquals(INCONCLUSIVE, open.verdict());
    ScenarioResult failed =
        samples()
            .deed("NOT yes", 0, "d", 0)
            .judge(response("NOT yes", SCAN, "p"), always("p"), always("gone"), always("yes"));
    assertEquals(FAILED, failed.verdict());
  }

  @Test
  void judgesWithoutTouchingTheRun() {
    // a division by zero counts an error in the image it is evaluated over, and is FALSE there
    Samples samples = new Samples(SCAN).real("x", "", 0, 0, 0);
    ScenarioResult result = samples.judge(eventually("1.0 / x > 0.0", SCAN));
    assertEquals(FAILED, result.verdict());
    assertEquals(0, samples.cells()[0]);
  }

  @Test
  void aFailureKeepsWhatHappenedLastBeforeIt() {
    Samples samples = new Samples(SCAN).bool("p", "1".repeat(20) + "00000");
    List<ExpectationResult> results =
        samples.judge(always("p"), eventually("NOT p AND scan.first", 0)).expectations();
    assertEquals(List.of("happening 11", "happening 20"), ends(results.get(0).before()));
    assertEquals(List.of("happening 15", "happening 24"), ends(results.get(1).before()));
  }

  private static List<String> ends(List<Target.Happening> kept) {
    assertEquals(10, kept.size());
    return List.of(kept.get(0).text(), kept.get(9).text());
  }
}
