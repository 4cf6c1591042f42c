package bufferstop.load;

import bufferstop.model.AlarmPoints;
import bufferstop.model.Controller;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Routine;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads the {@code controller} section. */
final class ControllerLoader {
  private static final SourceText NOTHING = SourceText.of("");
  private static final List<String> OWN_KEYS = List.of("block", "retain"); // others are inputs

  private final Sections sections;
  private final Diagnostics problems;

  ControllerLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /**
   * The controller of that section; an empty one without a section.
   *
   * @param routines of the project and its libraries
   */
  Controller read(TableReader reader, List<Routine> routines) {
    if (reader == null) {
      return new Controller(
          sections.definitions(),
          routines,
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          NOTHING,
          List.of(),
          null);
    }
    PointLoader pointLoader = new PointLoader(sections, problems);
    Definitions definitions = sections.definitions();
    SourceText logic = reader.text("logic");
    List<Controller.Interlock> interlocks = new InterlockLoader(sections, problems).read(reader);
    SourceText acknowledge = reader.text("acknowledge");
    List<Controller.Alarm> alarms =
        new ArrayList<>(new AlarmLoader(sections, problems).read(reader, acknowledge != null));
    alarms.addAll(AlarmLoader.ofBypasses(interlocks, acknowledge != null));
    List<Point> all = new ArrayList<>(pointLoader.read(reader));
    all.addAll(AlarmPoints.of(alarms));
    Controller controller =
        new Controller(
            new Definitions(
                definitions.enumerations(), definitions.constants(), pointLoader.arrays()),
            routines,
            List.copyOf(all),
            blocks(reader),
            interlocks,
            new SequenceLoader(sections, problems).read(reader),
            logic == null ? NOTHING : logic,
            List.copyOf(alarms),
            acknowledge);
    reader.finish();
    return controller;
  }

  private List<Controller.Block> blocks(TableReader controller) {
    List<Controller.Block> blocks = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "blocks", "blocks by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, ControllerForms.BLOCK, problems);
      Name kind = reader == null ? null : reader.requiredName("block");
      if (kind == null || !named) {
        problems.doubt(entry.key().text());
      }
      if (reader != null) {
        boolean retain = reader.bool("retain", false);
        Map<Name, SourceText> inputs = inputs(reader);
        reader.finish();
        if (kind != null && named) {
          blocks.add(
              new Controller.Block(
                  entry.key().text(), kind, inputs, retain, entry.key().position()));
        }
      }
    }
    return List.copyOf(blocks);
  }

  /** Expressions by the names of inputs, as written; null where one could not be read. */
  private Map<Name, SourceText> inputs(TableReader reader) {
    Map<Name, SourceText> inputs = new LinkedHashMap<>();
    for (Tree.Entry entry : reader.entries()) {
      Name key = entry.key();
      if (!OWN_KEYS.contains(key.text())) {
        inputs.put(key, TableReader.textOf(entry, problems));
      }
    }
    return inputs;
  }
}
