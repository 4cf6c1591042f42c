package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Field;
import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;

/** The keys of what lies outside the controller. */
final class FieldForms {
  static final Form SUPPLY =
      Form.of("supply", "a supply", key("text", Shape.TEXT, "one line for people"));

  static final Form NODE =
      Form.of(
          "node",
          "a node",
          key("cycle", Shape.TIME, "how often it is asked").example("T#20ms"),
          key("timeout", Shape.TIME, "lost after so long without an answer; longer than the cycle")
              .example("T#200ms"),
          key("on_loss", Shape.words(Field.OnLoss.class), "what its outputs do when it is lost"),
          key("text", Shape.TEXT, "one line for people"));

  static final Form PLANT =
      Form.of(
          "plant",
          "a plant",
          required("model", Shape.NAME, "name of a plant model").example("railway"),
          required("with", new Section(Shape.ANYTHING), "its settings, or a file with them")
              .example("line.yaml"));

  static final Form ELEMENT =
      Form.of(
          "panel_element",
          "a panel element",
          required("element", Shape.words(Field.ElementKind.class), "what it is"),
          key("contact", Shape.words(FieldLoader.Contact.class), "of a push button")
              .beside("element=push_button"),
          key("latching", Shape.TRUTH, "stays pressed until released")
              .beside("element=push_button"),
          key("positions", Shape.NAMES, "of a selector, the first at the start")
              .beside("element=selector")
              .needed()
              .example("[off, hand, automatic]"),
          key("text", Shape.TEXT, "one line for people"));

  static final Form WIRE =
      Form.of(
          "wire",
          "a wire",
          required("from", Shape.NAME, "where it begins").example("panel.start"),
          required("to", Shape.NAME, "where it ends").example("start_button"),
          key("name", Shape.NAME, "of its own; else that of the controller point at its end")
              .example("k1"));

  static final Shape SUPPLIES = named(SUPPLY);
  static final Shape NODES = named(NODE);
  static final Shape PLANTS = named(PLANT);
  static final Shape PANEL = named(ELEMENT);
  static final Shape CONDITIONS = new Section(Shape.named(Shape.FORMULA));
  static final Shape WIRING = new Section(new ListOf(new Of(WIRE)));

  private FieldForms() {}

  private static Shape named(Form form) {
    return new Section(Shape.named(new Of(form)));
  }
}
