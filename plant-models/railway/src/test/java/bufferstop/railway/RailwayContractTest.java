package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantModel;
import bufferstop.testkit.PlantContractTest;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The plug-in contract, on a run that couples, parts, loads, tips and strikes both ends. */
class RailwayContractTest extends PlantContractTest {
  // Controls of a line that has everything: close, reverse, volts, enable, lift, open, tip.
  private static final int[] BIT = {0, 1, 4, 5, 6};
  private static final int ENABLE = 3;
  private static final String[] PLAN = { // one word a second
    "00100", "10000", "00000", "11010", "10000", "10000", "00001", "00000", "00100", "10000",
    "10000", "10000", "11000", "11000", "11000", "11000", "10000", "00010", "10001", "11000"
  };

  private static final String SHORT = Lines.between(Lines.FULL, -0.3, 1.2);

  @Override
  protected PlantModel model() {
    return new RailwayModel();
  }

  @Override
  protected String settings() {
    return SHORT;
  }

  @Override
  protected void stimulate(long step, double[] in) {
    String word = PLAN[(int) (step / 1000) % PLAN.length];
    for (int i = 0; i < BIT.length; i++) {
      in[BIT[i]] = word.charAt(i) - '0';
    }
    in[ENABLE] = 1;
  }

  @Test
  void stimulusReachesEveryEvent() {
    Bench bench = new Bench(SHORT, 1000);
    double[] in = new double[7];
    String[] names = {
      "feed.close", "feed.reverse", "uncoupler.lift", "hopper.open", "discharge.tip"
    };
    for (long step = 0; step < steps(); step++) {
      stimulate(step, in);
      for (int i = 0; i < names.length; i++) {
        bench.set(names[i], in[BIT[i]]);
      }
      bench.step();
    }
    assertEquals(
        List.of("buffer_struck", "coupled", "parted", "spillage_began", "wall_struck"),
        bench.happened().stream().distinct().sorted().toList());
  }

  @Test
  void anotherStepSizeIsRefused() {
    Bench bench = new Bench(SHORT, 1000).step();
    double[] in = new double[7];
    double[] out = new double[bench.plant.outputs().size()];
    assertThrows(IllegalArgumentException.class, () -> bench.plant.step(500, in, out));
  }

  @Test
  void restoredPlantKeepsItsFaults() throws IOException {
    byte[] sound = state(new Bench(SHORT, 1000).plant);
    for (PlantFault fault : new Bench(SHORT, 1000).plant.faults()) {
      Bench faulty = new Bench(SHORT, 1000).fault(fault.name(), true, 0.5);
      byte[] state = state(faulty.plant);
      Bench restored = new Bench(SHORT, 1000);
      restored.plant.restore(new DataInputStream(new ByteArrayInputStream(state)));
      assertArrayEquals(state, state(restored.plant), fault.name());
      assertFalse(Arrays.equals(sound, state), fault.name());
    }
  }

  private static byte[] state(RailwayPlant plant) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    plant.save(new DataOutputStream(bytes));
    return bytes.toByteArray();
  }

  @Test
  void faultThatIsNotDeclaredIsRefused() {
    Bench bench = new Bench(SHORT, 1000);
    int count = bench.plant.faults().size();
    assertThrows(IllegalArgumentException.class, () -> bench.plant.fault(count, true, 0));
  }

  @Test
  void pictureShowsTheLineInUnits() {
    String svg = new Bench(SHORT, 1000).set("feed.close", 1).run(0.5).plant.picture();
    for (String part : List.of("tub 0.000 kg", "loco 0.", "beam near", "reed middle", "gap 0.")) {
      assertTrue(svg.contains(part), part);
    }
    assertTrue(svg.startsWith("<svg ") && svg.endsWith("</svg>\n"));
    assertTrue(!svg.contains("NaN") && !svg.contains("Infinity"));
  }

  @Test
  void lineWithoutPlacesHasNoPortsForThem() {
    Bench bare = new Bench(Lines.REFERENCE, 1000);
    assertEquals(4, bare.plant.inputs().size());
    assertTrue(bare.plant.outputs().stream().noneMatch(p -> p.name().startsWith("hopper")));
  }
}
