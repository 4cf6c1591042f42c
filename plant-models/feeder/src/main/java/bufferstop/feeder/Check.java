package bufferstop.feeder;

import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** What the schema cannot say about single parts of a feeder; {@link Shape} checks the network. */
final class Check {
  private static final List<String> SECTIONS =
      List.of(
          "transformers",
          "lines",
          "loads",
          "faults",
          "breakers",
          "relays",
          "fuses",
          "mcbs",
          "coils",
          "meters");

  private final Settings settings;
  private final Problems problems;

  Check(Settings settings, Problems problems) {
    this.settings = settings;
    this.problems = problems;
  }

  void run() {
    for (String section : SECTIONS) {
      settings.named(section).forEach((name, s) -> name(s, name));
    }
    source();
    settings.named("loads").forEach(this::load);
    settings.named("relays").forEach(this::relay);
    settings.named("fuses").forEach(this::fuse);
    settings.named("coils").forEach(this::coil);
    settings.named("meters").forEach(this::meter);
    oneBreakerALine();
  }

  private void name(Settings at, String name) {
    if (!name.matches("[a-z][a-z0-9_]*")) {
      problems.error(
          at,
          name,
          "`" + name + "` cannot be part of a port's name",
          "a lower-case letter, then lower-case letters, digits or underscores",
          "rename it");
    }
  }

  private void source() {
    boolean grid = settings.has("grid");
    if (grid == settings.has("generator")) {
      problems.error(
          settings,
          grid ? "generator" : "grid",
          grid ? "two sources feed the network" : "nothing feeds the network",
          "either grid or generator",
          grid ? "remove one of them" : "give one of them");
    }
    if (settings.has("generator")) {
      generator(settings.item("generator"));
    }
  }

  private void generator(Settings g) {
    double nominal = settings.number("frequency");
    if (g.number("underfrequency") >= nominal) {
      problems.error(
          g,
          "underfrequency",
          "the generating set would trip at its nominal frequency",
          "below " + nominal + " Hz",
          "lower underfrequency, or set frequency");
    }
    if (g.number("overfrequency") <= nominal) {
      problems.error(
          g,
          "overfrequency",
          "the generating set would trip at its nominal frequency",
          "above " + nominal + " Hz",
          "raise overfrequency, or set frequency");
    }
    if (g.number("synchronous_reactance") < g.number("transient_reactance")) {
      problems.error(
          g,
          "synchronous_reactance",
          "the synchronous reactance is below the transient one",
          "at least " + g.number("transient_reactance"),
          "a short circuit begins with the smaller, transient reactance");
    }
  }

  private void load(String name, Settings s) {
    LoadData data = LoadData.read(name, s);
    if (data.kind() == LoadData.Kind.MOTOR && !Motor.isPossible(data)) {
      problems.error(
          s,
          "start_current",
          "motor `" + name + "` cannot reach its rated power with this starting current",
          "a higher starting current, or a higher power_factor at standstill",
          "usual squirrel-cage motors take 5 to 8 times rated current");
    }
    if (data.kind() != LoadData.Kind.RECTIFIER
        && (data.hasDcPort() || !data.spectrum().isEmpty())) {
      problems.error(
          s,
          data.hasDcPort() ? "dc_volts" : "spectrum",
          "load `" + name + "` is no rectifier",
          "kind: rectifier",
          "only a rectifier has harmonics or a direct-current side");
    }
    Map<Integer, String> orders = new TreeMap<>();
    for (LoadData.Harmonic h : data.spectrum()) {
      String other = orders.put(h.order(), h.name());
      if (other != null) {
        problems.error(
            s.named("spectrum").get(h.name()),
            "order",
            "order `" + h.order() + "` is given twice, in `" + other + "` and `" + h.name() + "`",
            "each order once",
            "join them");
      }
    }
  }

  private void relay(String name, Settings s) {
    Element.Function[] all = Element.Function.values();
    boolean any = false;
    for (Element.Function each : all) {
      if (s.has(each.key)) {
        any = true;
        function(name, s, each);
      }
    }
    if (!any) {
      problems.error(
          s, "ct", "relay `" + name + "` has no function", "at least one", "give time_overcurrent");
    }
    if (s.has("reclosing")) {
      reclosing(name, s);
    }
  }

  private void function(String name, Settings relay, Element.Function function) {
    Settings s = relay.item(function.key);
    if (!function.isCurrent() && !relay.has("vt")) {
      problems.error(
          relay,
          function.key,
          "relay `" + name + "` has no voltage for " + function.text,
          "vt",
          "give its voltage transformers");
    }
    boolean timed = function.isCurrent() && !function.isInstantaneous();
    if (timed && s.text("reset").equals("definite") && s.number("reset_time") <= 0) {
      problems.error(
          s, "reset_time", "a definite reset needs its time", "above 0 s", "give reset_time");
    }
    boolean disc = timed && s.text("reset").equals("dependent");
    if (disc && s.text("curve").startsWith("iec") && s.number("reset_time") <= 0) {
      problems.error(
          s,
          "reset_time",
          "curve `" + s.text("curve") + "` has no reset of its own",
          "above 0 s: full reset from rest at multiplier 1",
          "give reset_time as its maker declares it, or another reset");
    }
    boolean under =
        function == Element.Function.UNDERVOLTAGE || function == Element.Function.UNDERFREQUENCY;
    if (!function.isCurrent() && (s.number("drop_out") > 1) != under) {
      problems.error(
          s,
          "drop_out",
          function.text + " would let go on the wrong side of its pick-up",
          under ? "above 1" : "below 1",
          "an element lets go where the quantity is healthy again");
    }
    instantaneousAboveTime(relay, function);
  }

  private void instantaneousAboveTime(Settings relay, Element.Function function) {
    boolean earth = function == Element.Function.EARTH_INSTANTANEOUS;
    String slow =
        (earth ? Element.Function.EARTH_TIME_OVERCURRENT : Element.Function.TIME_OVERCURRENT).key;
    if (!function.isInstantaneous() || !relay.has(slow)) {
      return;
    }
    double high = relay.item(function.key).number("pick_up");
    double low = relay.item(slow).number("pick_up");
    if (high < low) {
      problems.error(
          relay.item(function.key),
          "pick_up",
          function.text + " picks up at `" + high + "`, below the time element",
          "at least " + low + " A",
          "the instantaneous element is the higher of the two");
    }
  }

  private void reclosing(String name, Settings relay) {
    Settings s = relay.item("reclosing");
    for (int i = 1; i <= s.integer("shots"); i++) {
      if (s.number("dead_time_" + i) <= 0) {
        problems.error(
            s,
            "dead_time_" + i,
            "relay `" + name + "` would reclose at once",
            "above 0 s",
            "give a dead time in which an arc can go out");
      }
    }
    boolean earthOrPhase = relay.has("time_overcurrent") || relay.has("earth_time_overcurrent");
    if (s.integer("fast_trips") <= s.integer("shots") && !earthOrPhase) {
      problems.error(
          s,
          "fast_trips",
          "after its fast trips relay `" + name + "` has no function left",
          "more than shots, or a time element",
          "give time_overcurrent, or raise fast_trips");
    }
  }

  private void fuse(String name, Settings s) {
    double[][] points = Fuse.points(s);
    List<Settings> given = new ArrayList<>(s.named("curve").values());
    if (points.length < 2) {
      problems.error(
          s, "curve", "a melting curve has at least two points", "two or more", "add a point");
    }
    for (int i = 1; i < points.length && !given.isEmpty(); i++) {
      if (points[i][0] <= points[i - 1][0] || points[i][1] >= points[i - 1][1]) {
        problems.error(
            given.get(i),
            "current",
            "this point of fuse `" + name + "` does not follow the one before",
            "more current and less time",
            "write the points from low to high current");
      }
    }
  }

  private void coil(String name, Settings s) {
    if (s.number("let_go") >= s.number("pull_in")) {
      problems.error(
          s,
          "let_go",
          "coil `" + name + "` would let go where it pulls in",
          "below pull_in, " + s.number("pull_in"),
          "a coil needs more voltage to pull in than to hold");
    }
  }

  private void meter(String name, Settings s) {
    boolean load = !s.text("load").isEmpty();
    if (load != s.text("line").isEmpty()) {
      problems.error(
          s,
          load ? "line" : "load",
          "meter `" + name + "` measures " + (load ? "two things" : "nothing"),
          "either load or line",
          load ? "remove one of them" : "name the load");
    } else if (load && !settings.named("loads").containsKey(s.text("load"))) {
      problems.error(
          s,
          "load",
          "no load named `" + s.text("load") + "`",
          "a load of the network",
          NearName.help("load", s.text("load"), settings.named("loads").keySet()));
    }
  }

  private void oneBreakerALine() {
    Set<String> taken = new TreeSet<>();
    settings
        .named("breakers")
        .forEach(
            (name, s) -> {
              if (!taken.add(s.text("line"))) {
                problems.error(
                    s,
                    "line",
                    "`" + s.text("line") + "` has a breaker already",
                    "one breaker at the beginning of a line",
                    "put `" + name + "` on another line, which may have no length");
              }
            });
  }
}
