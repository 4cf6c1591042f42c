package bufferstop.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.testkit.PlantContractTest;
import bufferstop.testkit.ProblemList;
import bufferstop.testkit.SettingsOf;
import bufferstop.testkit.SplitMix64;
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

  private final double[] in = {0.01, 0, 0, 0, 0};
  private final double[] out = new double[11];

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

  private Plant open(String settings) {
    ProblemList problems = new ProblemList();
    PumpStationModel model = new PumpStationModel();
    Plant plant =
        model.open(SettingsOf.text(model.schema(), settings), problems, new SplitMix64(1));
    assertEquals(List.of(), problems.all());
    plant.start(out);
    return plant;
  }

  private double get(Plant plant, String port) {
    return out[plant.outputs().stream().map(Port::name).toList().indexOf(port)];
  }

  private void fault(Plant plant, String name, double amount) {
    plant.fault(plant.faults().stream().map(f -> f.name()).toList().indexOf(name), true, amount);
  }

  private void run(Plant plant, double seconds) {
    for (int i = 0; i < Math.round(seconds * 100); i++) {
      plant.step(10_000, in, out);
    }
  }

  @Test
  void wellFillsByItsInflow() {
    Plant plant = open(SETTINGS);
    run(plant, 100);
    assertEquals(1 + 0.01 * 100 / 4, get(plant, "level"), 1e-9); // h + q t / A [derived]
  }

  @Test
  void pumpsDeliverWhatHeadAndLossAllow() {
    // (20 - (12 - 1)) m over 2000 + 8000 s²/m5, and 2000 + 8000 * 2² for two [derived]
    Plant plant = open(SETTINGS);
    in[1] = 1;
    plant.step(10_000, in, out);
    assertEquals(Math.sqrt(9.0 / 10_000), get(plant, "pump.one.flow"), 1e-12);
    in[3] = 1;
    double level = get(plant, "level");
    plant.step(10_000, in, out);
    assertEquals(Math.sqrt((8 + level) / 34_000), get(plant, "pump.two.flow"), 1e-12);
  }

  @Test
  void leakingValveLetsTheMainRunBack() {
    Plant plant = open(SETTINGS);
    fault(plant, "valve_leaks.two", 0);
    plant.step(10_000, in, out);
    assertEquals(-Math.sqrt(11.0 / 10_000), get(plant, "pump.two.flow"), 1e-12);
  }

  @Test
  void blockedPumpTripsItsOverloadInTheTimeOfTheColdCurve() {
    // t = tau ln(I² / (I² - k²)), tau 60 s, I 6, k 1.15 (IEC 60255-149 [from memory, not re-read])
    Plant plant = open(SETTINGS);
    fault(plant, "pump_blocked.one", 0);
    in[1] = 1;
    double seconds = 0;
    while (get(plant, "pump.one.healthy") == 1) {
      plant.step(10_000, in, out);
      seconds += 0.01;
    }
    assertEquals(60 * Math.log(36 / (36 - 1.15 * 1.15)), seconds, 0.01 + 1e-9);
    assertEquals(0, get(plant, "pump.one.flow"));
    plant.step(10_000, in, out);
    assertEquals(0, get(plant, "pump.one.current"));
  }

  @Test
  void whatDoesNotFitRunsOver() {
    Plant plant = open(SETTINGS);
    in[0] = 0.4;
    run(plant, 30);
    assertEquals(3, get(plant, "level"));
    assertEquals(0.4 * 30 - 2 * 4, get(plant, "overflowed"), 1e-9);
    assertEquals(1, get(plant, "float.high"));
  }

  @Test
  void waterIsNeverLostOrMade() {
    Plant plant = open(SETTINGS);
    double sum = 4 * get(plant, "level");
    for (int i = 0; i < 5000; i++) {
      in[0] = 0.02;
      in[1] = i / 700 % 2;
      plant.step(10_000, in, out);
      sum += (0.02 - get(plant, "pump.one.flow") - get(plant, "pump.two.flow")) * 0.01;
      assertEquals(sum, 4 * get(plant, "level") + get(plant, "overflowed"), 1e-9);
    }
  }

  @Test
  void settingsThatCannotWorkAreProblems() {
    PumpStationModel model = new PumpStationModel();
    String bad =
        SETTINGS
            .replace("level: 1", "level: 4")
            .replace("lift: 12", "lift: 40")
            .replace("off: 2.4", "off: 2.6");
    ProblemList problems = new ProblemList();
    model.open(SettingsOf.text(model.schema(), bad), problems, new SplitMix64(1));
    assertEquals(4, problems.all().size(), problems.all().toString());
    assertTrue(problems.all().stream().allMatch(p -> !p.help().isBlank()));
  }
}
