package bufferstop.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.ScanPoints;
import bufferstop.image.Layout;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Interval;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Trigger;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.LongStream;

/** A target that plays back a table of samples, one row a scan, and notes what is done to it. */
final class Samples implements Target {
  static final Position HERE = Position.ofFile("test");

  private final long periodMicros;
  private final Layout layout = new Layout();
  private final Map<Integer, long[]> columns = new TreeMap<>();
  private final Map<String, Expression> conditions = new TreeMap<>();
  private final List<Stimulus> stimuli = new ArrayList<>();
  private final List<String> acts = new ArrayList<>();
  private long[] cells;
  private long[] times; // of the scans; null when they come every period
  private int scans;
  private int length;

  Samples(long periodMicros) {
    this.periodMicros = periodMicros;
    ScanPoints.declare(layout);
  }

  private Samples column(String name, Type type, String unit, long[] bits) {
    Symbol symbol =
        layout.add(name, type, Symbol.Kind.INTERNAL, Layout.Seen.BY_ALL, unit, "", HERE);
    columns.put(symbol.index(), bits);
    length = bits.length;
    return this;
  }

  /** Scans at these times instead of one every period. */
  Samples at(long... micros) {
    times = micros;
    return this;
  }

  Samples real(String name, String unit, double... values) {
    long[] bits = Arrays.stream(values).mapToLong(Double::doubleToLongBits).toArray();
    return column(name, Type.LREAL, unit, bits);
  }

  /** One character a sample. */
  Samples bool(String name, String values) {
    return column(name, Type.BOOL, "", values.chars().mapToLong(c -> c - '0').toArray());
  }

  Samples time(String name, long... micros) {
    return column(name, Type.TIME, "", micros);
  }

  /** A name whose own condition is known, as that of a hazard. */
  Samples condition(String name, String condition) {
    Diagnostics problems = new Diagnostics();
    conditions.put(
        name, ExpressionReader.read(SourceText.of(condition), scope(), Type.BOOL, problems));
    assertEquals(List.of(), problems.sorted());
    return this;
  }

  /** Something done after a time, for a time (0 for ever); {@code when} may be null. */
  Samples deed(String when, long afterMicros, String what, long forMicros) {
    SourceText text = when == null ? null : SourceText.of(when);
    Deed deed = new Release(new Name(what + ":" + forMicros, HERE));
    stimuli.add(new Stimulus("", Trigger.once(text, afterMicros), deed, HERE));
    return this;
  }

  /** Runs over all samples. */
  ScenarioResult judge(Expectation... expectations) {
    return judge(new Diagnostics(), expectations);
  }

  ScenarioResult judge(Diagnostics problems, Expectation... expectations) {
    long end = times == null ? (length - 1) * periodMicros : times[length - 1];
    Scenario scenario =
        new Scenario(
            "samples",
            "test",
            "",
            List.of(),
            List.of("test"),
            end,
            1,
            List.of(),
            List.copyOf(stimuli),
            List.of(expectations),
            HERE);
    cells = new long[layout.symbols().size()];
    return ScenarioRun.link(scenario, this, problems).run();
  }

  ExpectationResult only(Expectation expectation) {
    return judge(expectation).expectations().get(0);
  }

  /** What was done, and in which scan. */
  List<String> acts() {
    return acts;
  }

  @Override
  public Prepared prepare(Deed deed, Diagnostics problems) {
    String[] parts = ((Release) deed).element().text().split(":");
    return new Prepared() {
      @Override
      public void begin() {
        acts.add(parts[0] + " before scan " + scans);
      }

      @Override
      public long lastsMicros() {
        return Long.parseLong(parts[1]);
      }

      @Override
      public void end() {
        acts.add(parts[0] + " ends before scan " + scans);
      }
    };
  }

  @Override
  public long nowMicros() {
    return times == null ? (scans - 1) * periodMicros : times[scans - 1];
  }

  @Override
  public Scope scope() {
    return layout.field();
  }

  @Override
  public Expression condition(String name) {
    return conditions.get(name);
  }

  @Override
  public void scan() {
    columns.forEach((cell, bits) -> cells[cell] = bits[scans]);
    scans++;
  }

  @Override
  public long nextMicros() {
    if (times == null) {
      return scans * periodMicros;
    }
    return scans < times.length ? times[scans] : Long.MAX_VALUE;
  }

  @Override
  public long periodMicros() {
    return periodMicros;
  }

  @Override
  public long[] cells() {
    return cells;
  }

  @Override
  public List<Happening> lastHappenings() {
    return LongStream.range(Math.max(0, scans - HAPPENINGS_KEPT), scans)
        .mapToObj(i -> new Happening(i, "happening " + i))
        .toList();
  }

  @Override
  public String traceSha256() {
    return "";
  }

  static Expectation always(String that) {
    return always(that, Interval.WHOLE);
  }

  static Expectation always(String that, Interval during) {
    return new Scenario.Always(SourceText.of(that), during, "always " + that, "", HERE);
  }

  static Expectation never(String that) {
    return never(that, Interval.WHOLE);
  }

  static Expectation never(String that, Interval during) {
    return new Scenario.Never(SourceText.of(that), during, "never " + that, "", HERE);
  }

  static Expectation eventually(String that, long withinMicros) {
    return eventually(that, new Interval(0, withinMicros));
  }

  static Expectation eventually(String that, Interval during) {
    return new Scenario.Eventually(SourceText.of(that), during, "eventually " + that, "", HERE);
  }

  static Expectation until(String hold, String until, Interval during) {
    return new Scenario.Until(
        SourceText.of(hold),
        SourceText.of(until),
        during,
        "always " + hold + " until " + until,
        "",
        HERE);
  }

  static Expectation precedence(String never, String before) {
    return new Scenario.Precedence(
        SourceText.of(never), SourceText.of(before), "never " + never + " before", "", HERE);
  }

  static Expectation response(String when, long withinMicros, String that) {
    return response(when, 0, withinMicros, that);
  }

  static Expectation response(String when, long afterMicros, long withinMicros, String that) {
    return new Scenario.Response(
        SourceText.of(when),
        afterMicros,
        withinMicros,
        SourceText.of(that),
        Interval.WHOLE,
        "when " + when,
        "",
        HERE);
  }

  static Expectation persistence(String when, long afterMicros, long lastingMicros, String that) {
    return new Scenario.Persistence(
        SourceText.of(when),
        afterMicros,
        lastingMicros,
        SourceText.of(that),
        Interval.WHOLE,
        "when " + when + " for",
        "",
        HERE);
  }

  static Expectation stable(String that, long lastingMicros) {
    return new Scenario.Stable(SourceText.of(that), lastingMicros, "stable " + that, "", HERE);
  }

  static Expectation count(String that, long least, long greatest, Interval during) {
    return new Scenario.Count(
        SourceText.of(that), least, greatest, during, "count " + that, "", HERE);
  }

  static Expectation atEnd(String that) {
    return new Scenario.AtEnd(SourceText.of(that), "at_end " + that, "", HERE);
  }
}
