package bufferstop.mixer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import bufferstop.spi.PlantModel;
import bufferstop.testkit.Opened;
import bufferstop.testkit.PlantContractTest;
import bufferstop.testkit.ProblemList.Problem;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The plug-in contract, on a run that doses, empties, heats, mixes, discharges and spills. */
class MixerContractTest extends PlantContractTest {
  // one word a second: sand, water, gate, discharge, agitator; heat is on with the agitator
  private static final String[] PLAN = {
    "11000", "11000", "10000", "10000", "10000", "10000", "10000", "10000", "00100", "00101",
    "00101", "00001", "00001", "00001", "00011", "00011", "00010", "00010", "11111", "00000"
  };

  @Override
  protected PlantModel model() {
    return new MixerModel();
  }

  @Override
  protected String settings() {
    return Bench.SETTINGS;
  }

  @Override
  protected void stimulate(long step, double[] in) {
    String word = PLAN[(int) (step / 1000) % PLAN.length];
    for (int i = 0; i < word.length(); i++) {
      in[i] = word.charAt(i) - '0';
    }
    in[5] = in[4] * 0.7;
  }

  @Test
  void anotherStepSizeIsRefused() {
    Bench bench = new Bench().run(0.001);
    double[] in = new double[6];
    double[] out = new double[bench.plant.outputs().size()];
    assertThrows(IllegalArgumentException.class, () -> bench.plant.step(500, in, out));
  }

  @Test
  void faultThatIsNotDeclaredIsRefused() {
    Bench bench = new Bench();
    int count = bench.plant.faults().size();
    assertThrows(IllegalArgumentException.class, () -> bench.plant.fault(count, true, 0));
    assertThrows(IllegalArgumentException.class, () -> bench.plant.fault(-1, true, 0));
  }

  @Test
  void settingsThatContradictAreReported() {
    String wrong =
        Bench.SETTINGS
            .replace("high: 50", "high: 70")
            .replace("empty: 0.5", "empty: 80")
            .replace("specific: 1000", "specific: 1000\n  low: 100\n  high: 100");
    List<Problem> problems = Opened.of(model(), wrong).problems();
    assertEquals(3, problems.size(), () -> "" + problems);
    String bare = Bench.SETTINGS.substring(Bench.SETTINGS.indexOf("hopper:"));
    List<Problem> none = Opened.of(model(), bare).problems();
    assertEquals(
        List.of("a mixer without ingredients"), none.stream().map(Problem::message).toList());
  }
}
