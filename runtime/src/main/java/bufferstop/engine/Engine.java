package bufferstop.engine;

import bufferstop.image.Forces;
import bufferstop.image.OperatorWrites;
import bufferstop.image.SnapshotRing;
import bufferstop.plant.FieldRun;
import bufferstop.program.ControllerProgram;
import java.util.function.Consumer;
import java.util.function.IntUnaryOperator;

/**
 * Performs scans, in the one order there is. Time is logical: periods since the start times the
 * period. One thread calls it; a scan allocates nothing.
 */
public final class Engine {
  private final long periodMicros;
  private final long stepsPerPeriod;
  private final ControllerProgram program;
  private final FieldRun field;
  private final OperatorPoints operator;
  private final OperatorWrites writes;
  private final SnapshotRing snapshots;
  private final Forces forces;
  private final ScanPoints scanPoints;
  private final long[] cells;
  private OperatorWrites.Taker taker;
  private Arrivals arrivals = image -> {};
  private long periods = -1;
  private long scans;
  private long startPeriod; // of the controller's last start
  private long startScan;
  private boolean off;
  private boolean prepared;

  /**
   * @param cells the image
   * @param stepsPerPeriod plant steps in one period
   */
  public Engine(
      long[] cells,
      long periodMicros,
      long stepsPerPeriod,
      ControllerProgram program,
      FieldRun field,
      OperatorPoints operator,
      OperatorWrites writes,
      SnapshotRing snapshots,
      ScanPoints scanPoints) {
    this.cells = cells;
    this.periodMicros = periodMicros;
    this.stepsPerPeriod = stepsPerPeriod;
    this.program = program;
    this.field = field;
    this.operator = operator;
    this.writes = writes;
    this.snapshots = snapshots;
    this.scanPoints = scanPoints;
    forces = new Forces(cells.length);
    taker = operator;
  }

  /** What comes from outside by other ways than wires and operator writes. */
  @FunctionalInterface
  public interface Arrivals {

    /** Called by the scan thread at the beginning of each scan; must not wait or allocate. */
    void arrive(long[] cells);
  }

  /** Says what comes from outside. */
  public void listenTo(Arrivals others) {
    arrivals = others;
  }

  /** Gives what is written to a cell to another one, too. */
  public void redirectWrites(IntUnaryOperator cellOf) {
    OperatorWrites.Taker first = taker;
    taker =
        (image, request) -> {
          first.take(image, request);
          for (int i = 0; i < request.size(); i++) {
            image[cellOf.applyAsInt(request.cell(i))] = image[request.cell(i)];
          }
        };
  }

  /** Tells someone, too, of each write that a scan takes, once it is in the image. */
  public void tellWrites(OperatorWrites.Taker other) {
    OperatorWrites.Taker first = taker;
    taker =
        (image, request) -> {
          first.take(image, request);
          other.take(image, request);
        };
  }

  /**
   * Makes the program ready. The first scan does it otherwise, which takes longer than a period in
   * real time.
   */
  public void prepare() {
    program.prepare();
    prepared = true;
  }

  /** Values at time zero, before the first scan. */
  public void start() {
    program.start(cells);
    field.start(cells);
  }

  /**
   * Performs one scan.
   *
   * @param skipped periods that passed without a scan since the last one; the field has lived
   *     through them already, see {@link #catchUp}
   */
  public void scan(long skipped) {
    if (!prepared) {
      prepare();
    }
    periods += 1 + skipped;
    if (off) {
      writes.drain(cells, snapshots.published() + 1, (image, request) -> {});
      giveOutputs();
      return;
    }
    takeInputs((periods - startPeriod) * periodMicros);
    program.blocks(cells);
    program.interlocks(cells);
    program.sequences(cells);
    program.logic(cells);
    program.outputs(cells, forces);
    program.alarms(cells);
    giveOutputs();
  }

  private void takeInputs(long nowMicros) {
    scanPoints.begin(cells, nowMicros, scans - startScan, forces.count());
    arrivals.arrive(cells);
    field.takeInputs(cells, forces);
    operator.fallBack(cells, nowMicros);
    writes.drain(cells, snapshots.published() + 1, taker);
  }

  private void giveOutputs() {
    field.step(cells, stepsPerPeriod);
    snapshots.publish(cells);
    scans++;
  }

  /** Lets the field live through periods without a scan, outputs as they are, in equal steps. */
  public void catchUp(long skipped) {
    if (skipped > 0) {
      field.advance(cells, skipped * stepsPerPeriod);
    }
  }

  /**
   * Gives every output its safe value and publishes that; for the end of a run and for failures.
   */
  public void makeSafe() {
    program.makeSafe(cells);
    snapshots.publish(cells);
  }

  /**
   * Switches the controller off before the next scan: it forgets everything and every force, its
   * outputs have their safe values, what is written to it is lost. The field goes on.
   */
  public void switchOff() {
    off = true;
    program.clear(cells);
    scanPoints.clear(cells);
    forces.clearAll();
    program.makeSafe(cells);
  }

  /**
   * Switches it on before the next scan, which is its first: its clock and its counts begin anew.
   *
   * @param broughtBack writes what it retained
   */
  public void switchOn(Consumer<long[]> broughtBack) {
    off = false;
    startPeriod = periods + 1;
    startScan = scans;
    program.start(cells);
    broughtBack.accept(cells);
  }

  /** Whether it is switched off. */
  public boolean isOff() {
    return off;
  }

  /** Makes the program ready in another way, for tests. */
  void prepare(Consumer<ControllerProgram> way) {
    way.accept(program);
    prepared = true;
  }

  /** Logical time of the last scan in microseconds; negative before the first. */
  public long nowMicros() {
    return periods * periodMicros;
  }

  /** Scans performed. */
  public long scans() {
    return scans;
  }

  /** The image; read it between scans only. */
  public long[] cells() {
    return cells;
  }

  /** Forces; set them between scans only. */
  public Forces forces() {
    return forces;
  }
}
