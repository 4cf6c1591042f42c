package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.Verdict;
import java.util.List;
import org.junit.jupiter.api.Test;

class VerdictTextTest {
  @Test
  void bypassesAndAlarmsThatAreIllDesignedAreToldEvenWhenAllPassed() {
    assertEquals(
        """
          bypassed: line_stop.chain_open, 2 times; would have acted once
          alarm pit_slow came 3 times, standing, chattering (3 or more in a minute)
          alarm floods (more than 10 in 10 minutes): 1, T#2s in all
        """,
        VerdictText.details(Results.scenario("a", "f", 1, Verdict.PASSED)));
  }

  @Test
  void aBypassThatWasNeverOnIsNot() {
    assertEquals("", VerdictText.bypasses(List.of(new BypassCount("stop", "one", 0, 0))));
  }

  @Test
  void everyAlarmThatCameIsCounted() {
    assertEquals(
        """
        alarm pit_slow: 3 times, standing, chattering (3 or more in a minute)
        alarm horn: once
        alarm floods (more than 10 in 10 minutes): 1, T#2s in all
        """,
        AlarmText.summary(Results.scenario("a", "f", 1, Verdict.PASSED).alarms()));
    assertEquals("", AlarmText.summary(AlarmSummary.NONE));
  }

  @Test
  void theJournalShowsWhatHappenedLastWithItsScan() {
    String journal = AlarmText.journal(Results.scenario("a", "f", 1, Verdict.PASSED).alarms());
    assertTrue(journal.endsWith("\n  T#500ms  scan 50  pit_slow comes"), journal);
    assertEquals("no alarm so far", AlarmText.journal(AlarmSummary.NONE));
  }
}
