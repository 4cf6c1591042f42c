package bufferstop.load;

import bufferstop.model.AlarmPoints;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Reads the {@code controller} section. */
final class ControllerLoader {
  private static final SourceText NOTHING = SourceText.of("");
  private static final List<String> KINDS = List.of("permissive", "interlock", "trip");

  private final Sections sections;
  private final Diagnostics problems;

  ControllerLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** The controller of that section; an empty one without a section. */
  Controller read(TableReader reader) {
    if (reader == null) {
      return new Controller(List.of(), List.of(), List.of(), List.of(), NOTHING, List.of(), null);
    }
    PointLoader points = new PointLoader(sections, problems);
    SourceText logic = reader.text("logic");
    SourceText acknowledge = reader.text("acknowledge");
    List<Controller.Alarm> alarms =
        new AlarmLoader(sections, problems).read(reader, acknowledge != null);
    List<Point> all = new ArrayList<>(points.read(reader));
    all.addAll(AlarmPoints.of(alarms));
    Controller controller =
        new Controller(
            List.copyOf(all),
            blocks(reader),
            interlocks(reader),
            new SequenceLoader(sections, problems).read(reader),
            logic == null ? NOTHING : logic,
            alarms,
            acknowledge);
    reader.finish();
    return controller;
  }

  private List<Controller.Block> blocks(TableReader controller) {
    List<Controller.Block> blocks = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "blocks", "blocks by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, "a block", problems);
      Name kind = reader == null ? null : reader.requiredName("block");
      if (kind == null || !named) {
        problems.doubt(entry.key().text());
      }
      if (reader != null) {
        Map<Name, SourceText> inputs = inputs(reader);
        reader.finish();
        if (kind != null && named) {
          blocks.add(
              new Controller.Block(entry.key().text(), kind, inputs, entry.key().position()));
        }
      }
    }
    return List.copyOf(blocks);
  }

  /** Expressions by the standard's input names, upper case; null where one could not be read. */
  private Map<Name, SourceText> inputs(TableReader reader) {
    Map<Name, SourceText> inputs = new LinkedHashMap<>();
    for (Tree.Entry entry : reader.entries()) {
      Name key = entry.key();
      if (!key.text().equals("block")) {
        Name pin = new Name(key.text().toUpperCase(Locale.ROOT), key.position());
        inputs.put(pin, TableReader.textOf(entry, problems));
      }
    }
    return inputs;
  }

  private List<Controller.Interlock> interlocks(TableReader controller) {
    List<Controller.Interlock> interlocks = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "interlocks", "interlocks by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, "an interlock", problems);
      Controller.Interlock interlock = reader == null ? null : interlock(entry.key(), reader);
      if (interlock != null && named) {
        interlocks.add(interlock);
      } else {
        problems.doubt(entry.key().text());
      }
    }
    return List.copyOf(interlocks);
  }

  private Controller.Interlock interlock(Name name, TableReader reader) {
    List<String> given = reader.given(KINDS);
    String kind = given.size() == 1 ? given.get(0) : "";
    boolean trip = kind.equals("trip");
    List<Name> makesSafe = reader.names("makes_safe");
    String text = reader.words("text");
    SourceText reset = trip ? reader.requiredText("reset") : null;
    if (!trip) {
      reader.belongs("reset", "trips; a permissive or interlock does not latch");
    }
    if (!reader.finish() && given.isEmpty()) {
      return null;
    }
    if (given.size() != 1) {
      problems.add(
          Diagnostic.error(
                  name.position(),
                  "`"
                      + name.text()
                      + "` is "
                      + (given.isEmpty() ? "none" : "several")
                      + " of permissive, interlock and trip")
              .expected("exactly one of the keys permissive, interlock, trip"));
      return null;
    }
    return new Controller.Interlock(
        name.text(),
        InterlockKind.valueOf(kind.toUpperCase(Locale.ROOT)),
        causes(name, reader.entry(kind)),
        reset,
        makesSafe,
        text,
        name.position());
  }

  private List<Cause> causes(Name interlock, Tree.Entry given) {
    List<Cause> causes = new ArrayList<>();
    if (given.value() instanceof Tree.Table table && !table.entries().isEmpty()) {
      for (Tree.Entry entry : table.entries()) {
        boolean named = Identifiers.check(entry.key(), problems);
        SourceText condition = Conditions.of(entry, problems);
        if (named && condition != null) {
          causes.add(new Cause(entry.key().text(), condition, entry.key().position()));
        } else {
          problems.doubt(interlock.text() + ".first." + entry.key().text());
        }
      }
    } else if (given.value() instanceof Tree.Table) {
      problems.add(
          Diagnostic.error(given.value().position(), "`" + interlock.text() + "` has no causes")
              .expected("a BOOL expression, or several by name"));
    } else {
      SourceText condition = Conditions.of(given, problems);
      if (condition != null) {
        causes.add(new Cause("cause", condition, condition.whole()));
      }
    }
    return List.copyOf(causes);
  }
}
