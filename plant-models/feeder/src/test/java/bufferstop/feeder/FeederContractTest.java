package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.spi.SplitMix64;
import bufferstop.testkit.Opened;
import bufferstop.testkit.PlantContractTest;
import bufferstop.testkit.SettingsOf;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The plug-in contract, on a feeder that has a part of every kind. */
class FeederContractTest extends PlantContractTest {
  private static final List<String> INPUTS =
      ((FeederPlant)
              new FeederModel()
                  .open(
                      SettingsOf.text(new FeederModel().schema(), Networks.VILLAGE),
                      (at, p, m, e, h) -> {
                        throw new AssertionError(m);
                      },
                      new SplitMix64(1)))
          .inputs().stream().map(Port::name).toList();

  private static final int[] SWITCHED = {
    INPUTS.indexOf("load.pump.on"),
    INPUTS.indexOf("breaker.b1.open"),
    INPUTS.indexOf("breaker.b1.close"),
    INPUTS.indexOf("relay.r1.reset"),
    INPUTS.indexOf("fuse.f1.replace"),
    INPUTS.indexOf("mcb.m1.open"),
    INPUTS.indexOf("mcb.m1.close"),
    INPUTS.indexOf("load.lamps.on"),
    INPUTS.indexOf("breaker.b1.trip_supply")
  };
  private static final String[] PLAN = { // one word a second
    "100000011", "000000011", "100000011", "101000011", "110000011", "100000011", "101000011",
    "100100010", "100010010", "100001010", "100000110", "100000011", "000000011", "100000011",
    "100000010", "100000010", "110000010", "100000011", "101000011", "100000011"
  };
  private static final int DC = INPUTS.indexOf("load.tram.dc_amperes");

  @Override
  protected PlantModel model() {
    return new FeederModel();
  }

  @Override
  protected String settings() {
    return Networks.VILLAGE;
  }

  @Override
  protected void stimulate(long step, double[] in) {
    String word = PLAN[(int) (step / 1000) % PLAN.length];
    for (int i = 0; i < SWITCHED.length; i++) {
      in[SWITCHED[i]] = word.charAt(i) - '0';
    }
    in[DC] = step % 3000 < 1500 ? 4 + (step % 100) * 0.1 : 0;
  }

  @Test
  void everySwitchedPortIsThere() {
    assertTrue(Arrays.stream(SWITCHED).allMatch(i -> i >= 0), INPUTS::toString);
  }

  @Test
  void anotherStepSizeIsRefused() {
    Bench bench = new Bench(Networks.VILLAGE).step();
    double[] in = bench.plant.inputs().stream().mapToDouble(Port::unwired).toArray();
    double[] out = new double[bench.plant.outputs().size()];
    assertThrows(IllegalArgumentException.class, () -> bench.plant.step(500, in, out));
  }

  @Test
  void faultThatIsNotDeclaredIsRefused() {
    Bench bench = new Bench(Networks.VILLAGE);
    int count = bench.plant.faults().size();
    assertThrows(IllegalArgumentException.class, () -> bench.plant.fault(count, true, 0));
  }

  /** In the middle of a reclosing sequence, with every fault set in turn. */
  @Test
  void restoredPlantGoesOnInTheMiddleOfASequence() throws IOException {
    for (String fault : List.of("tree", "branch", "relay.r1.ct_open", "breaker.b1.stuck")) {
      Bench bench = new Bench(Networks.VILLAGE).run(0.5);
      if (!fault.equals("tree")) {
        bench.fault(fault, true, 1);
      }
      bench.fault("tree", true).run(0.7);
      byte[] state = state(bench.plant);
      Bench other = new Bench(Networks.VILLAGE);
      FeederPlant restored = unstarted();
      restored.restore(new DataInputStream(new ByteArrayInputStream(state)));
      assertArrayEquals(state, state(restored), fault);
      double[] in = other.plant.inputs().stream().mapToDouble(Port::unwired).toArray();
      double[] a = new double[other.plant.outputs().size()];
      double[] b = new double[a.length];
      for (int i = 0; i < 3000; i++) {
        bench.plant.step(1000, in, a);
        restored.step(1000, in, b);
        assertArrayEquals(a, b, fault + " at step " + i);
      }
      assertFalse(bench.happened().isEmpty());
    }
  }

  private static FeederPlant unstarted() {
    return (FeederPlant) Opened.of(new FeederModel(), Networks.VILLAGE).plant();
  }

  private static byte[] state(FeederPlant plant) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    plant.save(new DataOutputStream(bytes));
    return bytes.toByteArray();
  }

  @Test
  void pictureIsAChartOfAllDevices() {
    String svg = new Bench(Networks.VILLAGE).run(0.5).fault("tree", true).run(3).plant.picture();
    for (String part : List.of("relay r1", "fuse f1", "mcb m1", "damage of line l1", "cleared ")) {
      assertTrue(svg.contains(part), part);
    }
    assertTrue(svg.startsWith("<svg ") && svg.endsWith("</svg>\n"));
    assertFalse(svg.contains("NaN") || svg.contains("Infinity"));
  }
}
