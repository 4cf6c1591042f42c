package bufferstop.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.PlantModel;
import bufferstop.testkit.Opened;
import bufferstop.testkit.PlantBench;
import bufferstop.testkit.PlantContractTest;
import bufferstop.testkit.ProblemList.Problem;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The contract, and the equations against closed forms. Settings are invented [project choice]. */
class PumpStationTest extends PlantContractTest {
  private static final String PUMP =
      "{shut_off_head: 20, head_loss: 2000, rated_current: 8, rated_flow: 0.03, run_up: 0}";
  private static final String SETTINGS =
      """
      area: 4
      depth: 3
      level: 1
      inflow: 0.01
      lift: 12
      main_loss: 8000
      pumps:
        one: %s
        two: %s
      floats:
        high: {on: 2.5, off: 2.4}
      """
          .formatted(PUMP, PUMP);

  /** One station. */
  private static final class Bench extends PlantBench<PumpStation, Bench> {
    Bench() {
      super(PumpStation.class, new PumpStationModel(), SETTINGS, 10_000, 1);
    }

    @Override
    protected Bench self() {
      return this;
    }
  }

  @Override
  protected PlantModel model() {
    return new PumpStationModel();
  }

  @Override
  protected String settings() {
    return SETTINGS;
  }

  @Override
  protected void stimulate(long step, double[] in) {
    in[0] = step < 4000 ? 0.6 : 0.02;
    in[1] = step % 9000 < 6000 ? 1 : 0;
    in[3] = step > 8000 && step < 15_000 ? 1 : 0;
  }

  @Test
  void wellFillsByItsInflow() {
    Bench bench = new Bench();
    bench.run(100);
    assertEquals(1 + 0.01 * 100 / 4, bench.get("level"), 1e-9); // h + q t / A [derived]
  }

  @Test
  void pumpsDeliverWhatHeadAndLossAllow() {
    // (20 - (12 - 1)) m over 2000 + 8000 s²/m5, and 2000 + 8000 * 2² for two [derived]
    Bench bench = new Bench();
    bench.set("pump.one.run", 1);
    bench.step();
    assertEquals(Math.sqrt(9.0 / 10_000), bench.get("pump.one.flow"), 1e-12);
    bench.set("pump.two.run", 1);
    double level = bench.get("level");
    bench.step();
    assertEquals(Math.sqrt((8 + level) / 34_000), bench.get("pump.two.flow"), 1e-12);
  }

  @Test
  void leakingValveLetsTheMainRunBack() {
    Bench bench = new Bench();
    bench.fault("valve_leaks.two", true);
    bench.step();
    assertEquals(-Math.sqrt(11.0 / 10_000), bench.get("pump.two.flow"), 1e-12);
  }

  @Test
  void blockedPumpTripsItsOverloadInTheTimeOfTheColdCurve() {
    // t = tau ln(I² / (I² - k²)), tau 60 s, I 6, k 1.15 (IEC 60255-149 [from memory, not re-read])
    Bench bench = new Bench();
    bench.fault("pump_blocked.one", true);
    bench.set("pump.one.run", 1);
    double seconds = 0;
    while (bench.get("pump.one.healthy") == 1) {
      bench.step();
      seconds += 0.01;
    }
    assertEquals(60 * Math.log(36 / (36 - 1.15 * 1.15)), seconds, 0.01 + 1e-9);
    assertEquals(0, bench.get("pump.one.flow"));
    bench.step();
    assertEquals(0, bench.get("pump.one.current"));
  }

  @Test
  void whatDoesNotFitRunsOver() {
    Bench bench = new Bench();
    bench.set("inflow", 0.4);
    bench.run(30);
    assertEquals(3, bench.get("level"));
    assertEquals(0.4 * 30 - 2 * 4, bench.get("overflowed"), 1e-9);
    assertEquals(1, bench.get("float.high"));
  }

  @Test
  void waterIsNeverLostOrMade() {
    Bench bench = new Bench();
    double sum = 4 * bench.get("level");
    for (int i = 0; i < 5000; i++) {
      bench.set("inflow", 0.02).set("pump.one.run", i / 700 % 2);
      bench.step();
      sum += (0.02 - bench.get("pump.one.flow") - bench.get("pump.two.flow")) * 0.01;
      assertEquals(sum, 4 * bench.get("level") + bench.get("overflowed"), 1e-9);
    }
  }

  @Test
  void settingsThatCannotWorkAreProblems() {
    String bad =
        SETTINGS
            .replace("level: 1", "level: 4")
            .replace("lift: 12", "lift: 40")
            .replace("off: 2.4", "off: 2.6");
    List<Problem> problems = Opened.of(model(), bad).problems();
    assertEquals(4, problems.size(), problems.toString());
    assertTrue(problems.stream().allMatch(p -> !p.help().isBlank()));
  }
}
