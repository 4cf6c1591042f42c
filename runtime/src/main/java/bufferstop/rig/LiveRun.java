package bufferstop.rig;

import bufferstop.engine.RealClock;
import bufferstop.engine.ScanFailure;
import bufferstop.engine.ScanLoop;
import bufferstop.engine.ScanStatistics;
import bufferstop.image.WriteRequest;
import bufferstop.modbus.Credentials;
import bufferstop.modbus.Identification;
import bufferstop.modbus.MapImage;
import bufferstop.modbus.ModbusServer;
import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.modbus.Unit;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Serving.Secure;
import bufferstop.model.Symbol;
import bufferstop.model.Values;
import bufferstop.plant.FaultPanel;
import bufferstop.plant.PlantFailure;
import bufferstop.retention.RetainedValue;
import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.DeedText;
import bufferstop.scenario.Target.Prepared;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.function.Function;

/** A rig in real time, its {@code hmi} map served: what {@code run} runs. */
public final class LiveRun implements AutoCloseable {
  private static final long MARK_MICROS = 100_000;

  private final Rig rig;
  private final ScanStatistics statistics = new ScanStatistics();
  private final RealClock clock;
  private final ScanLoop loop;
  private BooleanSupplier paused = () -> false;
  private final Queue<Runnable> asked = new ConcurrentLinkedQueue<>();
  private final HandDeeds hand = new HandDeeds();
  private final RunTrace trace;
  private final StringBuilder taken = new StringBuilder(); // writes of the present scan
  private final long scansPerMark;
  private RecordingWriter recording; // null without one
  private final List<ModbusServer> servers = new ArrayList<>(); // the secure one first
  private volatile boolean stopping;

  /**
   * @param rig fresh from {@link Rig#build}
   * @param file takes the trace; buffered; closed by {@link #close}; null for none
   */
  public LiveRun(Rig rig, OutputStream file) {
    this.rig = rig;
    rig.engine().prepare();
    clock = new RealClock(rig.project().periodMicros(), statistics);
    loop = new ScanLoop(rig.engine(), clock, rig.project());
    trace = new RunTrace(rig, file);
    scansPerMark = Math.max(1, MARK_MICROS / rig.project().periodMicros());
  }

  /**
   * Records the run; before it begins.
   *
   * @param seed the rig was built with
   * @param retained what was brought back
   * @throws UncheckedIOException when the file cannot be written
   */
  public void record(
      Path file, String version, long seed, boolean withPlant, List<RetainedValue> retained) {
    recording = new RecordingWriter(file, rig.project(), version, seed, withPlant, retained);
    rig.engine().tellWrites(this::take);
  }

  private void take(long[] cells, WriteRequest request) {
    trace.tellWrite(cells, request);
    for (Symbol point : trace.written(request)) {
      taken.append(taken.isEmpty() ? "write: {" : ", ");
      taken.append(DeedText.assignment(point, cells));
    }
  }

  /**
   * Does something by hand, before the next scan; any thread. It goes to the recording.
   *
   * @return whether it will be done; if not, the problems say why
   */
  public boolean perform(Deed deed, Diagnostics problems) {
    Prepared prepared = new DeedLinker(rig, null).prepare(deed, problems);
    if (prepared == null) {
      return false;
    }
    Prepared told = trace.told(deed, prepared);
    asked.add(
        () -> {
          hand.begin(told, nextMicros());
          boolean written = deed instanceof Scenario.Write; // recorded when a scan takes it
          if (recording != null && !written) {
            recording.event(duePeriod(), DeedText.of(deed));
          }
        });
    return true;
  }

  /** Asks something of the rig between two scans; any thread. */
  public <T> CompletableFuture<T> ask(Function<Rig, T> question) {
    CompletableFuture<T> answer = new CompletableFuture<>();
    asked.add(() -> answer.complete(question.apply(rig)));
    return answer;
  }

  /** Faults that are on and points that are forced, a line each. */
  public static List<String> active(Rig rig) {
    List<String> lines = new ArrayList<>();
    for (FaultPanel.Possible fault : rig.field().faults().possible()) {
      if (fault.active().getAsBoolean()) {
        String place = fault.place().name().toLowerCase(Locale.ROOT);
        lines.add("fault " + place + " " + fault.name() + " " + fault.mode());
      }
    }
    for (Symbol symbol : rig.layout().observable()) {
      if (rig.engine().forces().isForced(symbol.index())) {
        long bits = rig.engine().forces().apply(symbol.index(), 0);
        String value = Values.print(symbol.type(), symbol.enumeration(), bits);
        lines.add("force " + symbol.name() + " " + value);
      }
    }
    return lines;
  }

  private long nextMicros() {
    return rig.engine().nowMicros() + rig.project().periodMicros();
  }

  private long duePeriod() {
    return nextMicros() / rig.project().periodMicros();
  }

  /**
   * Opens the hmi map, plain and secure as the project wants it.
   *
   * @return the bound port, or 0 when the project has no plain listener
   * @throws IOException when an address cannot be had, or certificates cannot be used; the message
   *     says which
   */
  public int open() throws IOException {
    ModbusMap map = rig.map("hmi");
    if (map == null) {
      return 0;
    }
    List<Unit> units = units(map);
    Limits limits = Limits.of(map.serving());
    Secure secure = map.serving().secure();
    if (secure != null) {
      Credentials credentials = Credentials.load(secure);
      open(
          new ModbusServer("hmi", units, secure.host(), secure.port(), limits, credentials),
          secure.host(),
          secure.port());
    }
    if (map.host().isEmpty()) {
      return 0;
    }
    return open(
        new ModbusServer("hmi", units, map.host(), map.port(), limits), map.host(), map.port());
  }

  private int open(ModbusServer server, String host, int port) throws IOException {
    try {
      server.start();
    } catch (IOException e) {
      throw new IOException(
          "cannot listen on "
              + host
              + ":"
              + port
              + " (map hmi): "
              + e.getMessage()
              + "; end what uses the port, or change `listen`",
          e);
    }
    servers.add(server);
    return server.port();
  }

  /** Every unit behind the listener of a map: its own, which comes first, and the further ones. */
  private List<Unit> units(ModbusMap face) {
    List<Unit> units = new ArrayList<>();
    for (ModbusMap map : rig.maps()) {
      if (map.face().equals(face.name())) {
        units.add(
            new Unit(
                map.unit(),
                MapImage.of(map, rig.layout().field(), rig.writable()),
                rig.writes(),
                rig.snapshots(),
                new Identification(map.serving().identification())));
      }
    }
    return units;
  }

  /** The port of the secure listener, or 0 when there is none; after {@link #open}. */
  public int securePort() {
    return rig.map("hmi") == null || rig.map("hmi").serving().secure() == null
        ? 0
        : servers.get(0).port();
  }

  /**
   * Scans until {@link #stop} is called or the time is up; outputs are safe afterwards, however it
   * ended.
   *
   * @param forMicros 0 for no limit
   * @throws ScanFailure when the scan failed, with the message of a plant that failed
   */
  public void scan(long forMicros) {
    try {
      while (!stopping && !isOver(forMicros)) {
        one();
      }
    } catch (PlantFailure e) {
      throw new ScanFailure(e.getMessage());
    } finally {
      rig.engine().makeSafe();
    }
  }

  private void one() {
    for (Runnable next = asked.poll(); next != null; next = asked.poll()) {
      next.run();
    }
    if (paused.getAsBoolean()) {
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(1));
      clock.restart();
      return;
    }
    hand.beforeScan(nextMicros());
    long due = duePeriod();
    loop.next();
    trace.afterScan();
    if (recording != null) {
      record(due);
    }
  }

  private void record(long due) {
    long period = duePeriod() - 1;
    if (period > due) {
      recording.event(due, "skip: " + (period - due));
    }
    if (!taken.isEmpty()) {
      recording.event(due, taken.append('}').toString());
      taken.setLength(0);
    }
    if (rig.engine().scans() % scansPerMark == 0) {
      recording.mark(period, trace.crc());
    }
    if (recording.failure() != null) {
      throw new ScanFailure(
          "the recording can be written no more: " + recording.failure().getMessage());
    }
  }

  /** Ends the recording in order, if there is one; returns the identity of the run. */
  public String finish() throws IOException {
    String sha256 = trace.sha256();
    if (recording != null) {
      recording.end(duePeriod() - 1, sha256);
      recording.close();
    }
    return sha256;
  }

  private boolean isOver(long forMicros) {
    long next = rig.engine().nowMicros() + rig.project().periodMicros();
    return forMicros > 0 && next >= forMicros;
  }

  /** Lets time stand still while this holds; it is asked by the scan thread. */
  public void pauseWhile(BooleanSupplier standing) {
    paused = standing;
  }

  /** Asks the scan to end; any thread. */
  public void stop() {
    stopping = true;
  }

  /** What alarms did so far; only after the scan has ended, or asked between scans. */
  public AlarmSummary alarms() {
    return trace.alarms();
  }

  /** What came of bypasses so far; likewise. */
  public List<BypassCount> bypasses() {
    return trace.bypasses();
  }

  /** Counts for the status line; histograms only after the scan has ended. */
  public ScanStatistics statistics() {
    return statistics;
  }

  @Override
  public void close() {
    servers.forEach(ModbusServer::close);
    trace.close();
  }
}
