package bufferstop.rig;

import bufferstop.image.WriteRequest;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Values;
import bufferstop.scenario.AlarmSummary;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.DeedText;
import bufferstop.scenario.Target.Happening;
import bufferstop.scenario.Target.Prepared;
import bufferstop.trace.TraceWriter;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;

/**
 * What a run tells of itself, the same whether it is live, virtual or a replay: its trace, and the
 * last things that happened.
 */
final class RunTrace implements AutoCloseable {
  private final Rig rig;
  private final TraceWriter trace;
  private final Happenings happenings = new Happenings();
  private final EventWatch events;
  private final AlarmWatch alarms;
  private List<BypassCount> earlierBypasses = List.of(); // before the last restart
  private boolean errorTold;

  /**
   * @param rig fresh from {@link Rig#build}
   * @param file takes the trace; buffered; null to digest it alone
   */
  RunTrace(Rig rig, OutputStream file) {
    this.rig = rig;
    trace = new TraceWriter(traced(rig), rig.project().periodMicros(), file);
    rig.field()
        .reportTo(
            (plant, text, value, unit) -> {
              String amount = unit.isEmpty() ? "" : " " + Values.number(value) + " " + unit;
              tell(plant + ": " + text + amount);
            });
    rig.engine().tellWrites(this::tellWrite);
    if (rig.panel() != null) {
      rig.panel().tellTo(this::tell);
    }
    events = new EventWatch(rig.project(), rig.layout(), happenings::add);
    events.start(rig.engine().cells());
    alarms = new AlarmWatch(rig.project().controller().alarms(), rig.layout(), happenings::add);
    alarms.start(rig.engine().cells(), 0);
  }

  /** Every value by cell; what the program says of an output apart from what the field is given. */
  private static List<Symbol> traced(Rig rig) {
    List<Symbol> traced = new ArrayList<>();
    for (Symbol s : rig.layout().symbols()) {
      boolean hidden = s.kind() == Symbol.Kind.OUTPUT && rig.layout().field().find(s.name()) != s;
      String name = hidden ? s.name() + ".program" : s.name();
      traced.add(s.named(name));
    }
    return traced;
  }

  /** A write that a scan has taken. */
  void tellWrite(long[] cells, WriteRequest request) {
    for (Symbol point : written(request)) {
      tell("write: {" + DeedText.assignment(point, cells) + "}");
    }
  }

  /** The points that a request writes. */
  List<Symbol> written(WriteRequest request) {
    List<Symbol> points = new ArrayList<>();
    for (int i = 0; i < request.size(); i += points.get(points.size() - 1).cells()) {
      points.add(rig.layout().symbol(request.cell(i)));
    }
    return points;
  }

  private void tell(String text) {
    tell(rig.engine().nowMicros(), text);
  }

  private void tell(long atMicros, String text) {
    happenings.add(atMicros, text);
    trace.event(text);
  }

  /** After each scan: the panel acts, the image goes to the trace. */
  void afterScan() {
    if (rig.panel() != null) {
      rig.panel().step(rig.engine().cells());
    }
    long now = rig.engine().nowMicros();
    trace.scan(now / rig.project().periodMicros(), rig.engine().cells());
    events.observe(rig.engine().cells(), now);
    alarms.observe(rig.engine().cells(), now, rig.engine().scans() - 1);
    if (!errorTold && rig.engine().cells()[SystemCells.ERRORS] != 0) {
      errorTold = true;
      happenings.add(now, "error: " + rig.firstError());
    }
  }

  List<Happening> lastHappenings() {
    return happenings.last();
  }

  /** What alarms did so far. */
  AlarmSummary alarms() {
    return alarms.summary(Math.max(0, rig.engine().nowMicros()));
  }

  /** What came of bypasses so far, over all restarts. */
  List<BypassCount> bypasses() {
    List<BypassCount> now = rig.bypasses();
    List<BypassCount> all = new ArrayList<>();
    for (int i = 0; i < now.size(); i++) {
      all.add(earlierBypasses.isEmpty() ? now.get(i) : now.get(i).and(earlierBypasses.get(i)));
    }
    return List.copyOf(all);
  }

  long crc() {
    return trace.crc();
  }

  String sha256() {
    return trace.sha256();
  }

  @Override
  public void close() {
    trace.close();
  }

  /** A deed that tells when it begins and ends; a write tells when a scan takes it. */
  Prepared told(Deed deed, Prepared prepared) {
    boolean silent = deed instanceof Scenario.Write || deed instanceof Scenario.Skip;
    return silent
        ? prepared
        : new Told(DeedText.of(deed), prepared, deed instanceof Scenario.Restart);
  }

  private final class Told implements Prepared {
    private final String text;
    private final Prepared inner;
    private final boolean tellsAll; // what it changes in the image is no event of its own

    Told(String text, Prepared inner, boolean tellsAll) {
      this.text = text;
      this.inner = inner;
      this.tellsAll = tellsAll;
    }

    private void done() {
      if (tellsAll) {
        events.start(rig.engine().cells());
        alarms.start(rig.engine().cells(), nextMicros());
      }
    }

    private long nextMicros() {
      return rig.engine().nowMicros() + rig.project().periodMicros();
    }

    @Override
    public void begin() {
      tell(nextMicros(), text);
      earlierBypasses = tellsAll ? bypasses() : earlierBypasses;
      inner.begin();
      done();
    }

    @Override
    public void goOn(long elapsedMicros) {
      inner.goOn(elapsedMicros);
    }

    @Override
    public long lastsMicros() {
      return inner.lastsMicros();
    }

    @Override
    public void end() {
      tell(nextMicros(), "end of " + text);
      inner.end();
      done();
    }
  }
}
