package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.scenario.BypassCount;
import bufferstop.scenario.Verdict;
import java.util.List;
import org.junit.jupiter.api.Test;

class VerdictTextTest {
  @Test
  void bypassesThatWereOnAreToldEvenWhenAllPassed() {
    assertEquals(
        "  bypassed: line_stop.chain_open, 2 times; would have acted once\n",
        VerdictText.details(Results.scenario("a", "f", 1, Verdict.PASSED)));
  }

  @Test
  void aBypassThatWasNeverOnIsNot() {
    assertEquals("", VerdictText.bypasses(List.of(new BypassCount("stop", "one", 0, 0))));
  }
}
