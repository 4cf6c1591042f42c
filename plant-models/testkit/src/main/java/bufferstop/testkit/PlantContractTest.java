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
import java.util.stream.Collectors;
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
    return Opened.of(model(), settings(), seed).plant();
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

  /** The host asks once and keeps the answer; the ports it may leave unwired say what they hold. */
  @Test
  public void portsAreAsDeclared() {
    Run run = started();
    assertEquals(run.plant.inputs(), run.plant.inputs());
    assertEquals(run.plant.outputs(), run.plant.outputs());
    double[] before = run.in.clone();
    run.plant.step(stepMicros(), run.in, run.out);
    assertArrayEquals(bits(before), bits(run.in), "a plant does not write its inputs");
    for (int i = 0; i < run.out.length; i++) {
      String name = run.plant.outputs().get(i).name();
      assertTrue(Double.isNaN(run.plant.outputs().get(i).unwired()), name + " is an output");
      assertTrue(run.plant.shortestPulse(i) >= 0, name + " has a pulse below 0");
    }
  }

  /** One thread calls it, and it starts none. */
  @Test
  public void startsNoThread() {
    Set<Long> before = threads();
    started().steps(Math.min(1000, steps()));
    Set<Long> after = threads();
    after.removeAll(before);
    assertEquals(Set.of(), after);
  }

  private static Set<Long> threads() {
    String plants = Thread.currentThread().getThreadGroup().getName();
    return Thread.getAllStackTraces().keySet().stream()
        .filter(t -> t.getThreadGroup() != null && t.getThreadGroup().getName().equals(plants))
        .map(Thread::getId)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * How far a quantity may be off when the step is halved, as a share of its greatest value; see
   * {@link #halvingTheStepConverges}.
   */
  protected double convergence() {
    return 0.01;
  }

  /**
   * Halving the step changes little, and halving it again less: the error of the whole step is
   * mostly its own, not the model's. Judged by the mean difference of every quantity over the run,
   * since a contact that comes a step later is no error.
   */
  @Test
  public void halvingTheStepConverges() {
    double[][] whole = sampled(1);
    double[][] half = sampled(2);
    double[][] quarter = sampled(4);
    List<Port> ports = opened(SEED).outputs();
    for (int i = 0; i < ports.size(); i++) {
      if (!ports.get(i).bool()) {
        double scale = Math.max(1e-9, greatest(whole, i));
        double first = difference(whole, half, i) / scale;
        double second = difference(half, quarter, i) / scale;
        String name = ports.get(i).name();
        assertTrue(first <= convergence(), name + " differs by " + first + " of its greatest");
        assertTrue(
            second <= Math.max(0.75 * first, convergence() / 20),
            name + " does not converge: " + first + " then " + second);
      }
    }
  }

  /** Outputs at the end of every whole step, each taken in so many parts. */
  private double[][] sampled(int parts) {
    Run run = started();
    int count = steps();
    double[][] all = new double[count][];
    for (int i = 0; i < count; i++) {
      stimulate(i, run.in);
      for (int part = 0; part < parts; part++) {
        run.plant.step(stepMicros() / parts, run.in, run.out);
      }
      all[i] = run.out.clone();
    }
    return all;
  }

  private static double greatest(double[][] all, int port) {
    return Stream.of(all).mapToDouble(out -> Math.abs(out[port])).max().orElse(0);
  }

  private static double difference(double[][] one, double[][] other, int port) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += Math.abs(one[i][port] - other[i][port]);
    }
    return sum / one.length;
  }

  /** The host finds the model by its class. */
  @Test
  public void serviceLoaderFindsTheModel() {
    assertTrue(
        StreamSupport.stream(ServiceLoader.load(PlantModel.class).spliterator(), false)
            .anyMatch(m -> m.getClass() == model().getClass() && m.name().equals(model().name())));
  }
}
