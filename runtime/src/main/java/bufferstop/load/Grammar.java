package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a user's files may hold, as the loaders go by it: what schemas are made of. */
public final class Grammar {
  static final Form PROJECT =
      Form.of(
          "project",
          "a project",
          required("project", Shape.TEXT, "name for people").example("Hollin brickworks tramway"),
          key("scan", Shape.TIME, "scan period").example("T#10ms"),
          key("plant_step", Shape.TIME, "step of plants and wires; divides the scan")
              .example("T#1ms"),
          key("watchdog", Shape.TIME, "a scan that takes longer ends the run").example("T#500ms"),
          key("catch_up", Shape.TIME, "longest gap that plants may make up for").example("T#1s"),
          key("scenarios", Shape.TEXT, "folder of scenario files").example("scenarios"),
          key("libraries", Shape.NAMES, "files of libraries").example("[pumps.yaml]"),
          key("functions", RoutineForms.FUNCTIONS, "the project's own functions"),
          key("function_blocks", RoutineForms.BLOCKS, "the project's own function blocks"),
          key("controller", new Section(new Of(ControllerForms.CONTROLLER)), "the controller"),
          key("supplies", FieldForms.SUPPLIES, "electrical supplies by name"),
          key("nodes", FieldForms.NODES, "remote nodes by name"),
          key("plants", FieldForms.PLANTS, "simulated plants by name"),
          key("panel", FieldForms.PANEL, "buttons, selectors and lamps by name"),
          key("circuits", FieldForms.CONDITIONS, "hard-wired logic by name"),
          key("wiring", FieldForms.WIRING, "one wire each"),
          key("hazards", FieldForms.CONDITIONS, "what must never happen, by name"),
          key("status", Shape.NAMES, "names whose values `run` shows")
              .example("[mains.works.volts]"),
          key("billing", new Section(new Of(BillingForms.BILLING)), "who pays what for energy"),
          key("modbus", new Section(new Of(ModbusForms.MODBUS)), "maps for HMI, field and plc"));

  private Grammar() {}

  /**
   * Kinds of files by name: those that a command or a project reads as a whole, then sections that
   * may stand in a file of their own.
   */
  public static Map<String, Shape> files() {
    Map<String, Shape> files = new LinkedHashMap<>();
    List<Form> whole =
        List.of(
            PROJECT,
            ControllerForms.CONTROLLER,
            RoutineForms.LIBRARY,
            ScenarioForms.SCENARIO,
            ScenarioForms.SETUP,
            BillingForms.TARIFF);
    whole.forEach(form -> files.put(form.name(), new Of(form)));
    sections(new Of(PROJECT), files);
    return files;
  }

  /** Adds the sections below a shape. */
  private static void sections(Shape shape, Map<String, Shape> files) {
    if (shape instanceof Of of) {
      for (Form.Key key : of.form().keys()) {
        boolean held = key.shape() instanceof Section s && s.held() != Shape.ANYTHING;
        if (held) {
          files.putIfAbsent(key.name(), ((Section) key.shape()).held());
        }
        sections(key.shape(), files);
      }
    } else if (shape instanceof Section section) {
      sections(section.held(), files);
    } else if (shape instanceof Shape.Named named) {
      sections(named.values(), files);
    } else if (shape instanceof Shape.Either either) {
      either.shapes().forEach(each -> sections(each, files));
    }
  }
}
