package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import com.sun.management.ThreadMXBean;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/**
 * What every plant keeps. An author extends it, gives the model, settings and a stimulus that makes
 * the plant do what it can, and adds tests of the equations.
 */
public abstract class PlantContractTest {
  private static final long SEED = 20_260_401L;

  /** For the subclass. */
  protected PlantContractTest() {}

  /** The model under test. */
  protected abstract PlantModel model();

  /** Settings as {@link SettingsText} reads them; they open without a problem. */
  protected abstract String settings();

  /**
   * Sets the inputs before a step; allocates nothing.
   *
   * @param step number of the step, from 0
   * @param in holds the unwired values at first, then what it held the step before
   */
  protected abstract void stimulate(long step, double[] in);

  /** Step in microseconds. */
  protected long stepMicros() {
    return 1000;
  }

  /** How many steps a run takes; enough for the stimulus to reach everything. */
  protected int steps() {
    return 20_000;
  }

  /** One plant under the stimulus. */
  private final class Run {
    final Plant plant;
    final double[] in;
    final double[] out;
    private long next;

    Run(long seed) {
      plant = opened(seed);
      in = plant.inputs().stream().mapToDouble(p -> orZero(p.unwired())).toArray();
      out = new double[plant.outputs().size()];
    }

    void step() {
      stimulate(next++, in);
      plant.step(stepMicros(), in, out);
    }

    void steps(int count) {
      for (int i = 0; i < count; i++) {
        step();
      }
    }

    /** State and outputs after so many steps, as bits. */
    double[][] record(int count) {
      double[][] all = new double[count][];
      for (int i = 0; i < count; i++) {
        step();
        all[i] = out.clone();
      }
      return all;
    }

    Run from(byte[] state, Run other) throws IOException {
      plant.restore(new DataInputStream(new ByteArrayInputStream(state)));
      next = other.next;
      System.arraycopy(other.in, 0, in, 0, in.length);
      return this;
    }
  }

  private static double orZero(double unwired) {
    return Double.isNaN(unwired) ? 0 : unwired;
  }

  private Plant opened(long seed) {
    ProblemList problems = new ProblemList();
    Plant plant =
        model().open(SettingsOf.text(model().schema(), settings()), problems, new SplitMix64(seed));
    assertEquals(List.of(), problems.all(), "the settings under test must open without a problem");
    return plant;
  }

  private Run started() {
    Run run = new Run(SEED);
    run.plant.start(run.out);
    return run;
  }

  private static byte[] state(Plant plant) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    plant.save(new DataOutputStream(bytes));
    return bytes.toByteArray();
  }

  private static void assertSameBits(double[][] expected, double[][] found) {
    for (int i = 0; i < expected.length; i++) {
      assertArrayEquals(bits(expected[i]), bits(found[i]), "step " + i);
    }
  }

  private static long[] bits(double[] values) {
    return Arrays.stream(values).mapToLong(Double::doubleToRawLongBits).toArray();
  }

  /** A run is its settings, its seed and its inputs, nothing else. */
  @Test
  public void sameSeedGivesTheSameRunBitForBit() throws IOException {
    Run one = started();
    Run two = started();
    assertSameBits(one.record(steps()), two.record(steps()));
    assertArrayEquals(state(one.plant), state(two.plant));
  }

  /** A stimulus that moves no output would prove nothing. */
  @Test
  public void stimulusMovesTheOutputs() {
    Run run = started();
    double[] before = run.out.clone();
    double[][] all = run.record(steps());
    assertTrue(Stream.of(all).anyMatch(out -> !Arrays.equals(before, out)));
  }

  /**
   * The steady scan allocates nothing, so a plant may not either. The same run is taken a few times
   * and the least counts: what the plant allocates comes back each time, what the virtual machine
   * charges to the thread once (linking, giving up compiled code) does not.
   */
  @Test
  public void stepAllocatesNothing() {
    ThreadMXBean thread = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    started().steps(steps());
    long least = Long.MAX_VALUE;
    for (int i = 0; i < 4; i++) {
      Run run = started();
      long before = thread.getCurrentThreadAllocatedBytes();
      run.steps(steps());
      least = Math.min(least, thread.getCurrentThreadAllocatedBytes() - before);
    }
    assertEquals(0, least, "bytes allocated in " + steps() + " steps");
  }

  /** What is written covers every output, at time zero and after each step, with real numbers. */
  @Test
  public void everyOutputIsWritten() {
    Run run = new Run(SEED);
    Arrays.fill(run.out, Double.NaN);
    run.plant.start(run.out);
    assertWritten(run, "start");
    for (int i = 0; i < steps(); i++) {
      Arrays.fill(run.out, Double.NaN);
      run.step();
      assertWritten(run, "step " + i);
    }
  }

  private static void assertWritten(Run run, String when) {
    List<Port> ports = run.plant.outputs();
    for (int i = 0; i < run.out.length; i++) {
      String name = ports.get(i).name();
      assertTrue(Double.isFinite(run.out[i]), name + " not written by " + when);
      assertTrue(!ports.get(i).bool() || run.out[i] == 0 || run.out[i] == 1, name + " is no BOOL");
    }
  }

  /** A refused call says which method it was. */
  @Test
  public void callsOutOfOrderAreRefusedByName() {
    Run fresh = new Run(SEED);
    assertRefused("step", fresh::step);
    assertRefused("save", () -> state(fresh.plant));
    Run run = started();
    run.step();
    assertRefused("start", () -> run.plant.start(run.out));
  }

  private static void assertRefused(String method, Executable call) {
    String message = assertThrows(IllegalStateException.class, call, method).getMessage();
    assertTrue(message.contains(method), "names the method: " + message);
  }

  /** A restored plant goes on as the saved one does, from the middle of a run. */
  @Test
  public void restoredPlantGoesOnBitForBit() throws IOException {
    Run run = started();
    int half = steps() / 2;
    run.steps(half);
    byte[] state = state(run.plant);
    Run other = new Run(SEED).from(state, run);
    assertSameBits(run.record(half), other.record(half));
    assertArrayEquals(state(run.plant), state(other.plant));
  }

  /** Ports, faults and events are named once each, in the host's alphabet. */
  @Test
  public void namesAreUniqueAndWellFormed() {
    Plant plant = opened(SEED);
    assertNames(
        Stream.concat(plant.inputs().stream(), plant.outputs().stream()).map(Port::name).toList());
    assertNames(plant.faults().stream().map(f -> f.name()).toList());
    assertNames(plant.events().stream().map(e -> e.name()).toList());
    assertNames(List.of(model().name()));
  }

  /**
   * Every parameter has a name of its own among its neighbours, a text, and a default that fits.
   */
  @Test
  public void schemaIsWellFormed() {
    assertFalse(model().schema().isEmpty());
    assertEquals(model().schema(), model().schema());
    assertSchema(model().schema());
  }

  private static void assertSchema(List<Parameter> schema) {
    assertNames(schema.stream().map(Parameter::name).toList());
    for (Parameter p : schema) {
      assertFalse(p.text().isBlank(), p.name() + " has no text");
      assertTrue(p.min() <= p.max(), p.name() + " has an empty range");
      assertSchema(p.fields());
    }
  }

  private static void assertNames(List<String> names) {
    Set<String> seen = new TreeSet<>();
    for (String name : names) {
      assertTrue(name.matches("[a-z][a-z0-9_]*(\\.[a-z][a-z0-9_]*)*"), "malformed: " + name);
      assertTrue(seen.add(name), "twice: " + name);
    }
  }

  /** The host finds the model by its class. */
  @Test
  public void serviceLoaderFindsTheModel() {
    assertTrue(
        StreamSupport.stream(ServiceLoader.load(PlantModel.class).spliterator(), false)
            .anyMatch(m -> m.getClass() == model().getClass() && m.name().equals(model().name())));
  }
}
