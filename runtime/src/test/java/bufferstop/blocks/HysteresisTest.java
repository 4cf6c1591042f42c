package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** HYSTERESIS in both senses. */
class HysteresisTest {
  private static String play(double on, double off, double... values) {
    Instance block = new Instance(Hysteresis.TYPE, Hysteresis::step).set("ON", on).set("OFF", off);
    StringBuilder seen = new StringBuilder();
    for (double value : values) {
      seen.append(block.set("IN", value).at(0).on("Q") ? '1' : '0');
    }
    return seen.toString();
  }

  @Test
  void turnsOnHighAndOffLow() {
    assertEquals("00111100", play(80, 60, 79.9, 60, 80, 81, 79, 60.1, 60, 79));
  }

  @Test
  void turnsOnLowAndOffHighWhenTheLevelsAreSwapped() {
    assertEquals("00111100", play(60, 80, 60.1, 80, 60, 59, 61, 79.9, 80, 61));
  }

  @Test
  void isAPlainComparisonWithBothLevelsInOnePlace() {
    assertEquals("0110", play(50, 50, 49, 50, 51, 49.999));
  }

  @Test
  void staysAsItWasWhileSomethingIsNoNumber() {
    assertEquals("0110", play(80, 60, 70, 90, Double.NaN, 50));
    assertEquals("00", play(Double.NaN, 60, 70, 90));
    assertEquals("00", play(80, Double.POSITIVE_INFINITY, 70, 90));
  }
}
