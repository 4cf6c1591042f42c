package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Fault.Place;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Press;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Trigger;
import bufferstop.model.Scenario.Write;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads what a scenario does to the rig. */
final class StimulusLoader {
  private static final long DEFAULT_PRESS = 300_000;
  private static final List<String> DEEDS = List.of("write", "press", "release", "fault", "clear");

  private final Diagnostics problems;

  StimulusLoader(Diagnostics problems) {
    this.problems = problems;
  }

  Stimulus read(TableReader reader) {
    Trigger trigger = trigger(reader);
    List<String> given = DEEDS.stream().filter(d -> reader.tree(d) != null).toList();
    Deed deed = given.size() == 1 ? deed(given.get(0), reader) : null;
    if (given.size() != 1) {
      problems.add(
          Diagnostic.error(reader.position(), "this does " + given.size() + " things")
              .expected("exactly one of " + String.join(", ", DEEDS)));
    }
    return trigger == null || deed == null ? null : new Stimulus(trigger, deed, reader.position());
  }

  private Trigger trigger(TableReader reader) {
    SourceText when = reader.text("when");
    Tree at = reader.tree("at");
    long micros = at == null ? 0 : reader.time("at", 0, 0);
    if ((when == null) == (at == null)) {
      problems.add(
          Diagnostic.error(reader.position(), "when this is done is not clear")
              .expected("either `at: T#...` or `when: condition`, with `after: T#...` if wanted"));
      return null;
    }
    return new Trigger(when, when == null ? micros : reader.time("after", 0, 0));
  }

  private Deed deed(String word, TableReader reader) {
    return switch (word) {
      case "write" -> write(reader.tree("write"));
      case "press" -> {
        Name element = reader.name("press");
        yield element == null ? null : new Press(element, reader.time("for", DEFAULT_PRESS, 1));
      }
      case "release" -> {
        Name element = reader.name("release");
        yield element == null ? null : new Release(element);
      }
      case "fault" -> {
        Fault fault = fault(reader.tree("fault"));
        yield fault == null ? null : new Inject(fault, reader.time("for", 0, 1));
      }
      default -> {
        TableReader target = TableReader.open(reader.tree("clear"), "what is cleared", problems);
        Fault.Target on = target == null ? null : target(target);
        if (target != null) {
          target.finish();
        }
        yield on == null ? null : new Clear(on);
      }
    };
  }

  private Deed write(Tree tree) {
    TableReader reader = TableReader.open(tree, "a write", problems);
    List<Assignment> values = new ArrayList<>();
    if (reader != null) {
      for (Tree.Entry entry : reader.entries()) {
        SourceText value = reader.text(entry.key().text());
        if (value != null) {
          values.add(new Assignment(entry.key(), value));
        }
      }
    }
    return values.isEmpty() ? null : new Write(List.copyOf(values));
  }

  private Fault fault(Tree tree) {
    TableReader reader = TableReader.open(tree, "a fault", problems);
    if (reader == null) {
      return null;
    }
    Fault.Target on = target(reader);
    Name mode = mode(reader, on);
    SourceText value = reader.text("value");
    long micros = reader.time("by", reader.time("every", 0, 1), 1);
    reader.finish();
    return on == null || mode == null ? null : new Fault(on, mode, value, micros);
  }

  /** A supply can only be lost, so that need not be said. */
  private Name mode(TableReader reader, Fault.Target on) {
    Name mode = reader.name("mode");
    if (mode == null && on != null && on.place() == Place.SUPPLY) {
      return new Name("lost", on.name().position());
    }
    return mode != null ? mode : reader.requiredName("mode", reader.position());
  }

  private Fault.Target target(TableReader reader) {
    Fault.Target found = null;
    int count = 0;
    for (Place place : Place.values()) {
      Name name = reader.name(place.name().toLowerCase(Locale.ROOT));
      if (name != null) {
        found = new Fault.Target(place, name);
        count++;
      }
    }
    if (count != 1) {
      Position at = reader.position();
      problems.add(
          Diagnostic.error(at, "what this acts on is not clear")
              .expected("exactly one of wire, supply, plant"));
      return null;
    }
    return found;
  }
}
