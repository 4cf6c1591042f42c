package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** TOTALISER. */
class TotaliserTest {
  private final Instance total = new Instance(Totaliser.TYPE, Totaliser::step);

  private String pulses(double from, double period, int calls) {
    StringBuilder seen = new StringBuilder();
    for (int call = 0; call < calls; call++) {
      seen.append(total.at(from + call * period).on("PULSE") ? '1' : '0');
    }
    return seen.toString();
  }

  @Test
  void addsUpARateOverUnevenTimes() {
    total.set("RATE", 2).at(1);
    assertEquals(0, total.real("TOTAL"));
    assertEquals(0.006, total.at(1.003).real("TOTAL"), 1e-15);
    assertEquals(3, total.set("RATE", 100).at(2.5).real("TOTAL"), 1e-12);
    assertEquals(13, total.set("RATE", 0).at(2.6).real("TOTAL"), 1e-12);
    assertEquals(13, total.at(99).real("TOTAL"), 1e-12);
  }

  @Test
  void takesRatesPerHour() {
    total.millis("PER", 3_600_000).set("RATE", 7_200).at(0);
    assertEquals(2, total.at(1).real("TOTAL"), 1e-12);
  }

  /** Added plainly, a million times 1e-10 to 1e9 gives nothing: half a unit in the last place. */
  @Test
  void losesNoSmallAmountInALargeTotal() {
    total.set("RATE", 1e9).at(0).set("RATE", 1e-8).at(1);
    for (int call = 1; call <= 1_000_000; call++) {
      total.at(1 + call * 0.01);
    }
    assertEquals(1e9 + 1e-4, total.real("TOTAL"), 2e-7);
  }

  @Test
  void givesAPulseOfOneCallForEachUnit() {
    total.set("RATE", 1).set("UNIT", 0.5);
    assertEquals("0000100010001", pulses(0, 0.125, 13));
    assertEquals(1.5, total.real("TOTAL"));
  }

  @Test
  void pulsesThatComeTooFastWait() {
    total.set("RATE", 40).at(0).set("RATE", 0); // four units in a tenth of a second
    assertEquals("1010101000", pulses(0.1, 0.1, 10));
  }

  @Test
  void resetClearsTheTotalAndThePulsesThatWait() {
    total.set("RATE", 40).at(0).at(0.1);
    assertTrue(total.on("PULSE"));
    total.set("R", true).at(0.2);
    assertEquals(0, total.real("TOTAL"));
    total.set("R", false).set("RATE", 0).at(0.2);
    assertEquals("0000", pulses(0.3, 0.1, 4));
  }

  @Test
  void aRateBelowZeroCountsAsZero() {
    total.set("RATE", 5).at(0).set("RATE", -5).at(1).at(2);
    assertEquals(5, total.real("TOTAL"), 1e-12);
    assertEquals(false, total.on("ERR"));
  }

  @Test
  void doesNotCountTheTimeOfARateThatIsNone() {
    total.set("RATE", 1).at(0).at(1);
    assertEquals(1, total.set("RATE", Double.NaN).at(2).real("TOTAL"));
    assertTrue(total.on("ERR"));
    assertEquals(1, total.set("RATE", 1).set("UNIT", 0).at(50).real("TOTAL"));
    assertEquals(1, total.set("UNIT", 1).millis("PER", 0).at(99).real("TOTAL"));
    assertEquals(2, total.millis("PER", 1_000).at(100).real("TOTAL"), 1e-12);
  }
}
