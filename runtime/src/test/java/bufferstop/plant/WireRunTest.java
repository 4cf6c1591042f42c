package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WireRunTest {
  private static final double ONCE_IN_20 = 0.05;

  private static WireRun wire() {
    return wire(1);
  }

  private static WireRun wire(long seed) {
    return new WireRun("w", true, new SeededStream(seed, "wire.w"));
  }

  private static void set(WireRun wire, WireFaultMode mode) {
    wire.begin(mode.make(new WireFaultMode.Parameters(Double.NaN, 0, 1000, wire.random())), null);
  }

  private static void chatter(WireRun wire, double chance) {
    wire.begin(WireFault.chatter(chance, wire.random()), null);
  }

  private static String deliver(WireRun wire, String values) {
    StringBuilder arrived = new StringBuilder();
    for (char value : values.toCharArray()) {
      arrived.append((int) wire.deliver(value - '0'));
    }
    return arrived.toString();
  }

  @Test
  void deliversWhatEntersWhileSound() {
    assertEquals("0110", deliver(wire(), "0110"));
  }

  @ParameterizedTest(name = "{0}: 0110 arrives as {1}")
  @CsvSource({"OPEN, 0000", "SHORT, 1111", "INVERTED, 1001"})
  void changesEveryValueAlike(WireFaultMode mode, String arrives) {
    // Source: what an open, shorted or wrongly wired contact looks like at the input, reference
    // table of faults of sensors [project choice]; the contact's own sense does not matter.
    WireRun wire = wire();
    set(wire, mode);
    assertEquals(arrives, deliver(wire, "0110"));
  }

  @Test
  void sticksAtAGivenValue() {
    WireRun wire = wire();
    wire.begin(WireFault.constant(1), null);
    assertEquals("1111", deliver(wire, "0110"));
  }

  @ParameterizedTest
  @CsvSource({"01, 1111", "10, 0000"})
  void sticksAtWhatLastArrived(String before, String arrives) {
    WireRun wire = wire();
    deliver(wire, before);
    wire.begin(WireFault.frozen(), null);
    assertEquals(arrives, deliver(wire, "0110"));
  }

  @Test
  void sticksAtWhatArrivedThroughTheFaultBefore() {
    WireRun wire = wire();
    set(wire, WireFaultMode.INVERTED);
    deliver(wire, "0");
    wire.begin(WireFault.frozen(), null);
    assertEquals("1111", deliver(wire, "0110"));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 7})
  void delaysEveryChangeByTheGivenSteps(int steps) {
    String values = "1011001110001111";
    WireRun wire = wire();
    deliver(wire, "1");
    wire.begin(WireFault.delay(steps), null);
    String late = "1".repeat(steps) + values.substring(0, values.length() - steps);
    assertEquals(late, deliver(wire, values));
  }

  @Test
  void deliversAtOnceAgainWhenADelayEnds() {
    WireRun wire = wire();
    wire.begin(WireFault.delay(3), null);
    assertEquals("00", deliver(wire, "11"));
    wire.clear();
    assertEquals("1", deliver(wire, "1"));
  }

  @Test
  void obeysTheLastFaultOnly() {
    WireRun wire = wire();
    set(wire, WireFaultMode.SHORT);
    set(wire, WireFaultMode.OPEN);
    assertEquals("0000", deliver(wire, "0110"));
  }

  private static int flips(WireRun wire, int steps) {
    int flips = 0;
    double last = 0;
    for (int i = 0; i < steps; i++) {
      double next = wire.deliver(0);
      flips += next == last ? 0 : 1;
      last = next;
    }
    return flips;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void chattersAtItsMeanRate(long seed) {
    // flips are binomial: n p = 10 000, standard deviation sqrt(n p (1 - p)) = 97.5; four of them
    // are left by 6 in 100 000 seeds
    WireRun wire = wire(seed);
    chatter(wire, ONCE_IN_20);
    assertEquals(10_000, flips(wire, 200_000), 4 * 97.5);
  }

  @Test
  void chattersInEveryStepWhenTheTimeIsNoLongerThanAStep() {
    WireRun wire = wire();
    chatter(wire, 1.0);
    assertEquals("10101010", deliver(wire, "00000000"));
  }

  private static String chatter(long seed) {
    WireRun wire = wire(seed);
    chatter(wire, ONCE_IN_20);
    return deliver(wire, "0".repeat(500));
  }

  @Test
  void chattersAlikeWithOneSeedAndOtherwiseWithAnother() {
    assertEquals(chatter(1), chatter(1));
    assertNotEquals(chatter(1), chatter(2));
  }

  @Test
  void chattersAroundWhatEnters() {
    WireRun at0 = wire();
    WireRun at1 = wire();
    chatter(at0, ONCE_IN_20);
    chatter(at1, ONCE_IN_20);
    for (int i = 0; i < 500; i++) {
      assertEquals(1 - at0.deliver(0), at1.deliver(1), "step " + i);
    }
  }
}
