package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import java.util.List;

/** The keys of functions and function blocks, and of the libraries that hold them. */
final class RoutineForms {
  static final Form INPUT = pin("routine_input", "an input", "given by a call");
  static final Form OUTPUT = pin("routine_output", "an output", "read after a call");
  static final Form LOCAL = pin("routine_local", "a local", "begins anew with each call");

  static final Form STATE =
      Form.of(
              "routine_state",
              "one part of the state",
              key("type", Shape.TYPE, "type of a value that is kept from call to call"),
              key("block", Shape.NAME, "or the block of an instance that is kept").example("TON"),
              key("initial", initial(), "value at a cold start").beside("type"),
              key("text", Shape.TEXT, "one line for people"))
          .exactlyOne(List.of("type", "block"));

  static final Form FUNCTION =
      Form.of(
          "function",
          "a function",
          key("text", Shape.TEXT, "one line for people"),
          key("inputs", Shape.named(new Of(INPUT)), "what a call gives"),
          key("locals", Shape.named(new Of(LOCAL)), "values for the length of a call"),
          required("returns", Shape.TYPE, "type of its value"),
          required("body", Shape.TEXT, "Structured Text that assigns its name")
              .example("double := 2 * x;"));

  static final Form BLOCK =
      Form.of(
          "function_block",
          "a function block",
          key("text", Shape.TEXT, "one line for people"),
          key("inputs", Shape.named(new Of(INPUT)), "what a call gives"),
          required("outputs", Shape.named(new Of(OUTPUT)), "what a call leaves"),
          key("state", Shape.named(new Of(STATE)), "what it keeps from call to call"),
          required("body", Shape.TEXT, "Structured Text").example("q := NOT in;"));

  static final Shape FUNCTIONS = new Section(Shape.named(new Of(FUNCTION)));
  static final Shape BLOCKS = new Section(Shape.named(new Of(BLOCK)));

  static final Form LIBRARY =
      Form.of(
          "library",
          "a library",
          key("library", Shape.TEXT, "name for people"),
          key("text", Shape.TEXT, "one line for people"),
          key("libraries", Shape.NAMES, "files of further libraries").example("pumps.yaml"),
          key("types", ControllerForms.TYPES, "enumerations by name"),
          key("constants", ControllerForms.CONSTANTS, "constants by name"),
          key("functions", FUNCTIONS, "functions by name"),
          key("function_blocks", BLOCKS, "function blocks by name"));

  private RoutineForms() {}

  private static Shape initial() {
    return Shape.either(Shape.LITERAL, new Shape.ListOf(Shape.LITERAL));
  }

  private static Form pin(String name, String what, String text) {
    return Form.of(
        name,
        what,
        required("type", Shape.TYPE, "type of the value, which is " + text),
        key("initial", initial(), "value at the beginning"),
        key("text", Shape.TEXT, "one line for people"));
  }
}
