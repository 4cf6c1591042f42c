package bufferstop.load;

import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Reads the {@code controller} section. */
final class ControllerLoader {
  private static final SourceText NOTHING = SourceText.of("");

  private final ProjectFiles files;
  private final Diagnostics problems;

  ControllerLoader(ProjectFiles files, Diagnostics problems) {
    this.files = files;
    this.problems = problems;
  }

  Controller read(Tree section) {
    TableReader reader =
        section == null ? null : TableReader.open(section, "the controller", problems);
    if (reader == null) {
      return new Controller(List.of(), List.of(), List.of(), List.of(), NOTHING, List.of(), null);
    }
    PointLoader pointLoader = new PointLoader(problems);
    List<Point> points = new ArrayList<>();
    points.addAll(pointLoader.read(part(reader, "inputs"), Kind.INPUT, "an input"));
    points.addAll(pointLoader.read(part(reader, "outputs"), Kind.OUTPUT, "an output"));
    points.addAll(pointLoader.read(part(reader, "operator"), Kind.OPERATOR, "an operator point"));
    points.addAll(pointLoader.read(part(reader, "internal"), Kind.INTERNAL, "an internal point"));
    SourceText logic = reader.text("logic");
    Controller controller =
        new Controller(
            List.copyOf(points),
            blocks(part(reader, "blocks")),
            interlocks(part(reader, "interlocks")),
            new SequenceLoader(problems).read(part(reader, "sequences")),
            logic == null ? NOTHING : logic,
            alarms(part(reader, "alarms")),
            reader.text("acknowledge"));
    reader.finish();
    return controller;
  }

  private Tree part(TableReader reader, String key) {
    return files.section(reader.tree(key));
  }

  private List<Tree.Entry> named(Tree section, String what) {
    TableReader table = section == null ? null : TableReader.open(section, what, problems);
    return table == null
        ? List.of()
        : table.entries().stream().filter(e -> Identifiers.check(e.key(), problems)).toList();
  }

  private List<Controller.Block> blocks(Tree section) {
    List<Controller.Block> blocks = new ArrayList<>();
    for (Tree.Entry entry : named(section, "blocks")) {
      TableReader reader = TableReader.open(entry.value(), "a block", problems);
      Name kind = reader == null ? null : reader.requiredName("block", entry.key().position());
      if (kind != null) {
        Map<Name, SourceText> inputs = new LinkedHashMap<>();
        for (Tree.Entry input : reader.entries()) {
          SourceText text =
              input.key().text().equals("block") ? null : reader.text(input.key().text());
          if (text != null) {
            Name key =
                new Name(input.key().text().toUpperCase(Locale.ROOT), input.key().position());
            inputs.put(key, text);
          }
        }
        blocks.add(new Controller.Block(entry.key().text(), kind, inputs, entry.key().position()));
      }
    }
    return List.copyOf(blocks);
  }

  private List<Controller.Interlock> interlocks(Tree section) {
    List<Controller.Interlock> interlocks = new ArrayList<>();
    for (Tree.Entry entry : named(section, "interlocks")) {
      TableReader reader = TableReader.open(entry.value(), "an interlock", problems);
      if (reader != null) {
        Controller.Interlock interlock = interlock(entry.key(), reader);
        if (interlock != null) {
          interlocks.add(interlock);
        }
        reader.finish();
      }
    }
    return List.copyOf(interlocks);
  }

  private Controller.Interlock interlock(Name name, TableReader reader) {
    InterlockKind kind = null;
    Tree causes = null;
    int given = 0;
    for (InterlockKind candidate : InterlockKind.values()) {
      Tree tree = reader.tree(candidate.name().toLowerCase(Locale.ROOT));
      if (tree != null) {
        kind = candidate;
        causes = tree;
        given++;
      }
    }
    List<Name> makesSafe = reader.names("makes_safe");
    String text = reader.words("text");
    SourceText reset =
        kind == InterlockKind.TRIP ? reader.requiredText("reset", name.position()) : null;
    if (given != 1) {
      problems.add(
          Diagnostic.error(
                  name.position(),
                  "`"
                      + name.text()
                      + "` is "
                      + (given == 0 ? "none" : "several")
                      + " of permissive, interlock and trip")
              .expected("exactly one of the keys permissive, interlock, trip"));
      return null;
    }
    return new Controller.Interlock(
        name.text(), kind, causes(causes), reset, makesSafe, text, name.position());
  }

  private List<Cause> causes(Tree tree) {
    List<Cause> causes = new ArrayList<>();
    if (tree instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
      causes.add(new Cause("cause", scalar.text(), scalar.position()));
    } else {
      for (Tree.Entry entry : named(tree, "named causes")) {
        if (entry.value() instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
          causes.add(new Cause(entry.key().text(), scalar.text(), entry.key().position()));
        } else {
          problems.add(
              Diagnostic.error(
                      entry.key().position(), "`" + entry.key().text() + "` has no condition")
                  .expected("a BOOL expression"));
        }
      }
    }
    return List.copyOf(causes);
  }

  private List<Controller.Alarm> alarms(Tree section) {
    List<Controller.Alarm> alarms = new ArrayList<>();
    for (Tree.Entry entry : named(section, "alarms")) {
      TableReader reader = TableReader.open(entry.value(), "an alarm", problems);
      if (reader != null) {
        SourceText when = reader.requiredText("when", entry.key().position());
        Controller.Priority priority =
            reader.choice("priority", Controller.Priority.class, Controller.Priority.MEDIUM);
        long delay = reader.time("on_delay", 0, 0);
        String text = reader.words("text");
        reader.finish();
        if (when != null) {
          alarms.add(
              new Controller.Alarm(
                  entry.key().text(), when, priority, delay, text, entry.key().position()));
        }
      }
    }
    return List.copyOf(alarms);
  }
}
