package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.feeder.ProtectiveDevice.Current;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Steady fault currents against the reference, section 4.4: own example, computed there from
 * textbook formulas (IEC 60909-0 is the method behind them, its text was not read).
 */
class FaultCurrentTest {
  private static Bench faulty(String place, String joins, double ohms) {
    String fault =
        """
        faults:
          f:
            line: l1
            place: %s
            joins: %s
            resistance: %s
        """
            .formatted(place, joins, ohms);
    return new Bench(Networks.LOW_VOLTAGE + fault).fault("f", true).run(0.5);
  }

  @ParameterizedTest(name = "three-phase at {0}: {1} A with c = 1.05")
  @CsvSource({"0, 3693.40", "1, 1630.74"})
  void threePhaseFault(String place, double amperes) {
    Bench bench = faulty(place, "abc", 0);
    double found =
        bench.network.amperes(bench.network.tree.named(place.equals("0") ? "t1" : "l1"), 0);
    assertEquals(amperes / 1.05, found, 0.0005 * amperes);
  }

  @ParameterizedTest(
      name = "phase to neutral through {0} ohm: {1} A at the busbar, {2} A at the end")
  @CsvSource({
    "0, 3517.53, 947.91",
    "0.1, 1635.22, 685.82",
    "0.5, 434.51, 317.36",
    "1, 224.24, 188.58",
    "2, 113.82, 103.90",
    "10, 23.03, 22.60",
    "40, 5.769, 5.742",
    "100, 2.309, 2.304"
  })
  void phaseToNeutralFault(double ohms, double busbar, double end) {
    assertEquals(busbar, faulty("0", "an", ohms).get("fault.f.amperes"), 0.0006 * busbar);
    assertEquals(end, faulty("1", "an", ohms).get("fault.f.amperes"), 0.0006 * end);
  }

  @ParameterizedTest(name = "{0} ohm at the line's end leave {1} V at the busbar")
  @CsvSource({"0, 186.931", "0.5, 220.078", "2, 227.806", "10, 230.294"})
  void voltageLeftAtTheBusbar(double ohms, double volts) {
    assertEquals(volts, faulty("1", "an", ohms).get("node.busbar.volts_a"), 0.001);
  }

  @ParameterizedTest(name = "halfway, {0}")
  @CsvSource({"an, 1", "abc, 0"})
  void placeOnALineIsAShareOfIt(String joins, double returns) {
    double r = 0.0281751 + (1 + returns) * 0.048;
    double x = 0.0593012 + (1 + returns) * 0.01125;
    double amperes = 400 / Math.sqrt(3) / Math.sqrt(r * r + x * x);
    Bench bench = faulty("0.5", joins, 0);
    assertEquals(amperes, bench.get("line.l1.amperes_a"), 0.0005 * amperes);
  }

  /** The levels at which devices in series are compared, by the same source. */
  @Test
  void levelsOfTheGradingCheck() {
    Tree tree = new Bench(Networks.LOW_VOLTAGE).network.tree;
    Coordination grading = new Coordination(tree, List.of(), List.of(), 0.3);
    int line = tree.named("l1");
    assertEquals(3693.40 / 1.05, grading.most(Current.PHASE, line), 2);
    assertEquals(3517.53, grading.most(Current.EARTH, line), 2);
  }
}
