package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Fault.Place;
import bufferstop.model.Name;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Force;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Press;
import bufferstop.model.Scenario.Pulse;
import bufferstop.model.Scenario.Ramp;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Restart;
import bufferstop.model.Scenario.Skip;
import bufferstop.model.Scenario.Turn;
import bufferstop.model.Scenario.Unforce;
import bufferstop.model.Scenario.Write;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads one thing that is done to the rig. */
final class DeedLoader {
  static final List<String> DEEDS =
      List.of(
          "write", "press", "release", "turn", "fault", "clear", "ramp", "pulse", "force",
          "unforce", "skip", "restart");
  private static final long DEFAULT_PRESS = 300_000;
  private static final long DEFAULT_OFF = 1_000_000;
  private static final long MOST_SKIPPED = 1_000_000;
  private static final List<String> PLACES = List.of("wire", "supply", "node", "plant");
  private static final List<String> ENDS = List.of("point", "wire");

  private final Diagnostics problems;

  DeedLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /**
   * The deed of that word.
   *
   * @return null after a diagnostic
   */
  Deed deed(String word, TableReader reader) {
    reader.belongs("for", "press, fault, ramp, pulse and restart");
    reader.belongs("to", "turn");
    reader.belongs("refused", "write");
    reader.belongs("over", "ramp");
    return switch (word) {
      case "write" -> {
        List<Assignment> values = assignments(reader.entry("write"), "a write", "operator points");
        boolean refused = reader.bool("refused", false);
        yield values.isEmpty() ? null : new Write(values, refused);
      }
      case "turn" -> {
        Name element = reader.name("turn");
        Name to = reader.requiredName("to");
        yield element == null || to == null ? null : new Turn(element, to);
      }
      case "press" -> {
        Name element = reader.name("press");
        long lasting = reader.time("for", DEFAULT_PRESS, 1);
        yield element == null ? null : new Press(element, lasting);
      }
      case "release" -> {
        Name element = reader.name("release");
        yield element == null ? null : new Release(element);
      }
      case "fault" -> {
        Fault fault = fault(reader.entry("fault"));
        long lasting = reader.time("for", 0, 1);
        yield fault == null ? null : new Inject(fault, lasting);
      }
      case "clear" -> clear(reader);
      case "skip" ->
          new Skip(reader.whole("skip", 1, 1, MOST_SKIPPED), reader.tree("skip").position());
      case "restart" -> {
        Start start = reader.choice("restart", Start.class, null);
        long off = reader.time("for", DEFAULT_OFF, 1);
        yield start == null ? null : new Restart(start == Start.COLD, off);
      }
      default -> valued(word, reader);
    };
  }

  /** How a controller starts. */
  enum Start {
    WARM,
    COLD
  }

  private Deed valued(String word, TableReader reader) {
    switch (word) {
      case "ramp" -> {
        return ramp(reader);
      }
      case "pulse" -> {
        return pulse(reader);
      }
      case "force" -> {
        List<Assignment> values =
            assignments(reader.entry("force"), "a force", "inputs and outputs");
        return values.isEmpty() ? null : new Force(values);
      }
      default -> {
        Name point = reader.name("unforce");
        boolean all = point != null && point.text().equalsIgnoreCase("all");
        return point == null ? null : new Unforce(all ? null : point);
      }
    }
  }

  private Deed clear(TableReader reader) {
    TableReader target = TableReader.open(reader.entry("clear"), ScenarioForms.CLEARED, problems);
    Fault.Target on = target == null ? null : target(target);
    if (target != null) {
      finish(target, PLACES);
    }
    return on == null ? null : new Clear(on);
  }

  private Deed ramp(TableReader reader) {
    TableReader inner = TableReader.open(reader.entry("ramp"), ScenarioForms.RAMP, problems);
    reader.required("over");
    long over = reader.time("over", 1, 1);
    long lasting = reader.time("for", 0, 1);
    if (inner == null) {
      return null;
    }
    Scenario.Place on = end(inner);
    SourceText from = inner.requiredText("from");
    SourceText to = inner.requiredText("to");
    finish(inner, ENDS);
    if (on != null && !on.wire() && lasting > 0) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.tree("for").position(),
                  "an operator point keeps what is written")
              .help("`for` belongs to a ramp on a wire, which it lets go"));
    }
    return on == null || from == null || to == null ? null : new Ramp(on, from, to, over, lasting);
  }

  private Deed pulse(TableReader reader) {
    TableReader inner = TableReader.open(reader.entry("pulse"), ScenarioForms.PULSE, problems);
    reader.required("for");
    long lasting = reader.time("for", 1, 1);
    if (inner == null) {
      return null;
    }
    Scenario.Place on = end(inner);
    SourceText value = inner.text("value");
    finish(inner, ENDS);
    return on == null ? null : new Pulse(on, value, lasting);
  }

  private static Scenario.Place end(TableReader reader) {
    List<String> given = reader.given(ENDS);
    Name name = given.size() == 1 ? reader.name(given.get(0)) : null;
    return name == null ? null : new Scenario.Place(given.get(0).equals("wire"), name);
  }

  private List<Assignment> assignments(Tree.Entry entry, String what, String points) {
    TableReader reader = TableReader.open(entry, what, problems);
    List<Assignment> values = new ArrayList<>();
    if (reader == null) {
      return values;
    }
    for (Tree.Entry value : reader.entries()) {
      SourceText text = TableReader.textOf(value, problems);
      if (text != null) {
        values.add(new Assignment(value.key(), text));
      }
    }
    if (reader.entries().isEmpty()) {
      String does = entry.key().text() + "s";
      problems.add(
          Diagnostic.error(Code.NOTHING_GIVEN, reader.position(), "this " + does + " nothing")
              .expected(points + " with their values: {start: TRUE}"));
    }
    return List.copyOf(values);
  }

  private Fault fault(Tree.Entry entry) {
    TableReader reader = TableReader.open(entry, ScenarioForms.FAULT, problems);
    if (reader == null) {
      return null;
    }
    Fault.Target on = target(reader);
    Name mode = mode(reader, on);
    SourceText value = reader.text("value");
    long micros = reader.time("by", reader.time("every", 0, 1), 1);
    if (reader.given(List.of("by", "every")).size() > 1) {
      problems.add(
          Diagnostic.error(Code.BAD_STIMULUS, reader.at(), "this fault gives two times")
              .expected("`by` with delay and late, `every` with chatter"));
    }
    finish(reader, PLACES);
    return on == null || mode == null ? null : new Fault(on, mode, value, micros);
  }

  /** A supply can only be lost, and a node mostly is, so that need not be said. */
  private static Name mode(TableReader reader, Fault.Target on) {
    if (reader.tree("mode") == null && on != null && hasOneMode(on.place())) {
      return new Name("lost", on.name().position());
    }
    return reader.requiredName("mode");
  }

  private static boolean hasOneMode(Place place) {
    return place == Place.SUPPLY || place == Place.NODE;
  }

  private static Fault.Target target(TableReader reader) {
    List<String> given = reader.given(PLACES);
    Name name = given.size() == 1 ? reader.name(given.get(0)) : null;
    return name == null
        ? null
        : new Fault.Target(Place.valueOf(given.get(0).toUpperCase(Locale.ROOT)), name);
  }

  private void finish(TableReader reader, List<String> places) {
    List<String> given = reader.given(places);
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  reader.at(),
                  given.isEmpty()
                      ? "what this acts on is missing"
                      : "this acts on several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", places)));
    }
  }
}
