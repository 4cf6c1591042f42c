package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Fault.Place;
import bufferstop.model.Name;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Press;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Trigger;
import bufferstop.model.Scenario.Turn;
import bufferstop.model.Scenario.Write;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads what a scenario does to the rig. */
final class StimulusLoader {
  private static final long DEFAULT_PRESS = 300_000;
  private static final List<String> DEEDS =
      List.of("write", "press", "release", "turn", "fault", "clear");
  private static final List<String> TIMES = List.of("at", "when");
  private static final List<String> PLACES = List.of("wire", "supply", "node", "plant");

  private final Diagnostics problems;

  StimulusLoader(Diagnostics problems) {
    this.problems = problems;
  }

  Stimulus read(TableReader reader) {
    List<String> given = reader.given(DEEDS);
    List<String> times = reader.given(TIMES);
    Trigger trigger = times.size() == 1 ? trigger(times.get(0), reader) : null;
    Deed deed = given.size() == 1 ? deed(given.get(0), reader) : null;
    reader.belongs("for", "press and fault");
    reader.belongs("to", "turn");
    reader.belongs("refused", "write");
    reader.belongs("after", "`when: condition`");
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  reader.at(),
                  given.isEmpty()
                      ? "this does nothing"
                      : "this does several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", DEEDS)));
    }
    if (times.size() > 1 || times.isEmpty() && known) {
      problems.add(
          Diagnostic.error(reader.at(), "when this is done is not clear")
              .expected("either `at: T#...` or `when: condition`, with `after: T#...` if wanted"));
    }
    return trigger == null || deed == null ? null : new Stimulus(trigger, deed, reader.position());
  }

  private static Trigger trigger(String time, TableReader reader) {
    if (time.equals("at")) {
      return new Trigger(null, reader.time("at", 0, 0));
    }
    SourceText when = reader.text("when");
    long after = reader.time("after", 0, 0);
    return when == null ? null : new Trigger(when, after);
  }

  private Deed deed(String word, TableReader reader) {
    return switch (word) {
      case "write" -> write(reader.entry("write"), reader.bool("refused", false));
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
      default -> {
        TableReader target = TableReader.open(reader.entry("clear"), "what is cleared", problems);
        Fault.Target on = target == null ? null : target(target);
        if (target != null) {
          finishTarget(target);
        }
        yield on == null ? null : new Clear(on);
      }
    };
  }

  private Deed write(Tree.Entry entry, boolean refused) {
    TableReader reader = TableReader.open(entry, "a write", problems);
    List<Assignment> values = new ArrayList<>();
    if (reader == null) {
      return null;
    }
    for (Tree.Entry value : reader.entries()) {
      SourceText text = TableReader.textOf(value, problems);
      if (text != null) {
        values.add(new Assignment(value.key(), text));
      }
    }
    if (reader.entries().isEmpty()) {
      problems.add(
          Diagnostic.error(reader.position(), "this writes nothing")
              .expected("operator points with their values: {start: TRUE}"));
    }
    return values.isEmpty() ? null : new Write(List.copyOf(values), refused);
  }

  private Fault fault(Tree.Entry entry) {
    TableReader reader = TableReader.open(entry, "a fault", problems);
    if (reader == null) {
      return null;
    }
    Fault.Target on = target(reader);
    Name mode = mode(reader, on);
    SourceText value = reader.text("value");
    long micros = reader.time("by", reader.time("every", 0, 1), 1);
    if (reader.given(List.of("by", "every")).size() > 1) {
      problems.add(
          Diagnostic.error(reader.at(), "this fault gives two times")
              .expected("`by` with delay and late, `every` with chatter"));
    }
    finishTarget(reader);
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

  private void finishTarget(TableReader reader) {
    List<String> given = reader.given(PLACES);
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  reader.at(),
                  given.isEmpty()
                      ? "what this acts on is missing"
                      : "this acts on several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", PLACES)));
    }
  }
}
