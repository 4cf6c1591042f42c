package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.scenario.AlarmSummary;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Counts, chattering, floods, stale alarms. */
class AlarmFiguresTest {
  // Source: the check rows of ISA-18.2 and IEC 62682 metrics [from memory, not re-read]; "3 or
  // more" and "more than 10" where readings differ [project choice].

  private static final long SECOND = 1_000_000;

  private final AlarmFigures figures = new AlarmFigures(List.of("a", "b", "c"));

  private void pulse(int alarm, long second) {
    figures.raised(alarm, second * SECOND);
    figures.returned(alarm, second * SECOND + 1);
  }

  private String at(long second) {
    StringBuilder out = new StringBuilder();
    for (AlarmSummary.Count figure : figures.at(second * SECOND)) {
      out.append(figure.name()).append(figure.activations());
      out.append(figure.standing() ? " standing" : "");
      out.append(figure.chattering() ? " chattering" : "");
      out.append(figure.stale() ? " stale" : "").append("; ");
    }
    return out.toString();
  }

  @Test
  void theMostFrequentComesFirst() {
    pulse(0, 1);
    pulse(1, 100);
    figures.raised(1, 300 * SECOND);
    assertEquals("b2 standing; a1; ", at(400));
  }

  @Test
  void threeWithinAMinuteChatter() {
    for (long second : new long[] {0, 20, 40}) {
      pulse(0, second);
    }
    for (long second : new long[] {100, 120, 161}) {
      pulse(1, second);
    }
    assertEquals("a3 chattering; b3; ", at(200));
  }

  @Test
  void aFloodBeginsWithTheEleventhWithinTenMinutes() {
    for (int i = 0; i < 10; i++) {
      pulse(i % 3, 60L * i);
    }
    assertEquals(0, figures.floods());
    pulse(0, 600);
    assertEquals(1, figures.floods());
  }

  @Test
  void aFloodGoesOnWithFiveInTenMinutesAndEndsWithFour() {
    for (int i = 0; i < 11; i++) {
      pulse(i % 3, i);
    }
    for (int i = 0; i < 5; i++) {
      pulse(i % 3, 400 + i);
    }
    assertEquals((1000 - 10) * SECOND, figures.floodMicros(1000 * SECOND), "five are left");
    assertEquals((1000 - 10) * SECOND, figures.floodMicros(1001 * SECOND), "four are left");
    assertEquals(1, figures.floods());
  }

  @Test
  void staleIsMoreThanADay() {
    long day = 24 * 3600;
    figures.raised(0, 0);
    assertEquals("a1 standing; ", at(day));
    assertEquals("a1 standing stale; ", at(day + 60));
    figures.returned(0, (day + 61) * SECOND);
    assertEquals("a1 stale; ", at(day + 62));
  }
}
