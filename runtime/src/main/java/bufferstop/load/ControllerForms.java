package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Controller;
import bufferstop.model.Form;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import java.util.List;

/** The keys of a controller: points, blocks, interlocks, sequences, alarms. */
final class ControllerForms {
  static final Form CONSTANT =
      Form.of(
          "constant",
          "a constant",
          required("type", Shape.TYPE, "type of the constant"),
          required("value", Shape.LITERAL, "a literal, or made of constants above it"));

  static final Shape TYPES = new Section(Shape.named(new ListOf(Shape.NAME)));
  static final Shape CONSTANTS =
      new Section(Shape.named(Shape.either(Shape.LITERAL, new Of(CONSTANT))));

  private static final Key TYPE = required("type", Shape.TYPE, "type of the point");
  private static final Key TEXT = key("text", Shape.TEXT, "one line for the I/O list");
  private static final Key TERMINAL =
      key("terminal", Shape.TEXT, "where the wire lands").example("X1-3");
  private static final Key SUPPLY =
      key("supply", Shape.NAME, "the supply that feeds it").example("dc24");
  private static final Key NODE =
      key("node", Shape.NAME, "the remote node it is on; without one the controller's own rack")
          .example("pit_rack");
  private static final Key INITIAL =
      key(
          "initial",
          Shape.either(Shape.LITERAL, new ListOf(Shape.LITERAL)),
          "value at a cold start; of an array a list, or one for all");
  private static final Key RETAIN =
      key("retain", Shape.CONSTANT_TRUTH, "TRUE: keeps its value over a warm restart");

  static final Form INPUT =
      Form.of(
          "input",
          "an input",
          TYPE,
          TEXT,
          TERMINAL,
          SUPPLY,
          NODE,
          key("filter", Shape.CONSTANT_TIME, "delays both edges and drops what is shorter")
              .example("T#3ms"));

  static final Form OUTPUT =
      Form.of(
          "output",
          "an output",
          TYPE,
          TEXT,
          TERMINAL,
          SUPPLY,
          NODE,
          key("safe", Shape.LITERAL, "value on trip, stop and failure; default FALSE or 0"));

  static final Form OPERATOR =
      Form.of(
          "operator_point",
          "an operator point",
          TYPE,
          TEXT,
          INITIAL,
          key("range", Shape.RANGE, "[least, greatest] an operator may write"),
          key("momentary", Shape.CONSTANT_TRUTH, "TRUE for exactly one scan after a write"),
          key("hold_to_run", Shape.CONSTANT_TIME, "falls to FALSE unless written again in time")
              .example("T#500ms"),
          RETAIN);

  static final Form INTERNAL =
      Form.of("internal_point", "an internal point", TYPE, TEXT, INITIAL, RETAIN);

  static final Form BLOCK =
      Form.of(
              "block",
              "a block",
              required("block", Shape.NAME, "which block: a standard one, or one's own")
                  .example("TON"),
              key("retain", Shape.TRUTH, "TRUE: goes on after a warm restart as it was"))
          .others(Shape.FORMULA);

  static final Form BYPASS =
      Form.of(
          "bypass",
          "a bypass",
          required("when", Shape.FORMULA, "its rising edge begins the bypass"),
          required("at_most", Shape.TIME, "when it ends at the latest").example("T#10m"));

  static final Form CAUSE =
      Form.of(
              "cause",
              "a cause",
              key("when", Shape.FORMULA, "the condition"),
              key("vote", new Shape.Whole(1, 16), "how many channels must ask"),
              key("of", Shape.named(Shape.FORMULA), "channels by name").beside("vote").needed(),
              key("bad", Shape.named(Shape.FORMULA), "TRUE while a channel's quality is bad")
                  .beside("vote"),
              key(
                      "bad_counts",
                      Shape.words(CauseLoader.BadCounts.class),
                      "how a bad channel counts")
                  .beside("vote"),
              key("differ_after", Shape.TIME, "how long channels may differ").beside("vote"),
              key("on_delay", Shape.TIME, "how long it must ask before it acts"),
              key("bypass", new Of(BYPASS), "lets it be suppressed for a time"),
              key("text", Shape.TEXT, "one line for the matrix"))
          .exactlyOne(List.of("when", "vote"));

  private static final Shape CAUSES =
      Shape.either(Shape.FORMULA, Shape.named(Shape.either(Shape.FORMULA, new Of(CAUSE))));

  static final Form INTERLOCK =
      Form.of(
              "interlock",
              "an interlock",
              key("permissive", CAUSES, "needed to start; it only tells"),
              key("interlock", CAUSES, "needed to go on"),
              key("trip", CAUSES, "latches when it holds"),
              key("reset", Shape.FORMULA, "its rising edge resets the trip")
                  .beside("trip")
                  .needed(),
              key("makes_safe", Shape.NAMES, "outputs that are safe while it acts"),
              key("group", Shape.NAME, "first-out in common with others of the group"),
              key("retain", Shape.TRUTH, "TRUE: still tripped after a warm restart").beside("trip"),
              key("text", Shape.TEXT, "one line for people"))
          .exactlyOne(List.of("permissive", "interlock", "trip"));

  static final Form STEP =
      Form.of(
          "step",
          "a step",
          key("initial", Shape.CONSTANT_TRUTH, "active before the first scan"),
          key("final", Shape.CONSTANT_TRUTH, "while it is active the sequence is done"),
          key("run", Shape.NAME, "the sequence that it encloses"),
          key(
                  "do",
                  Shape.either(Shape.TEXT, new ListOf(Shape.TEXT)),
                  "actions: a qualifier, its time if it has one, and the target")
              .example("[N motor, L T#3s lamp]"),
          key("at_least", Shape.CONSTANT_TIME, "no transition leaves it earlier"),
          key("within", Shape.CONSTANT_TIME, "later than this it is late"),
          key("text", Shape.TEXT, "one line for people"));

  static final Form TRANSITION =
      Form.of(
          "transition",
          "a transition",
          required("from", Shape.NAMES, "steps that must be active").example("idle"),
          required("to", Shape.NAMES, "steps that become active").example("run"),
          required("when", Shape.FORMULA, "the condition"));

  static final Form ABORT =
      Form.of(
          "abort",
          "an abort",
          required("when", Shape.FORMULA, "while it holds the sequence stands in one step"),
          required("to", Shape.NAME, "that step").example("stop"));

  static final Form HOLD =
      Form.of(
          "hold",
          "a hold",
          required("when", Shape.FORMULA, "while it holds the sequence stands still"),
          key("restart", Shape.FORMULA, "its rising edge ends the hold"));

  static final Form MANUAL =
      Form.of(
          "manual",
          "manual stepping",
          required("when", Shape.FORMULA, "while it holds the sequence is stepped by hand"),
          required("next", Shape.FORMULA, "its rising edge lets it step"));

  static final Form SEQUENCE =
      Form.of(
          "sequence",
          "a sequence",
          required("steps", Shape.named(new Of(STEP)), "steps by name"),
          required("transitions", new ListOf(new Of(TRANSITION)), "what leads from step to step"),
          key("actions", Shape.named(Shape.TEXT), "actions that are statements, by name"),
          key("abort", new Of(ABORT), "leads to one step from wherever it is"),
          key("hold", new Of(HOLD), "makes it stand still"),
          key("manual", new Of(MANUAL), "lets it be stepped by hand"));

  static final Form LIMIT =
      Form.of(
          "limit",
          "a limit",
          required("value", Shape.FORMULA, "the quantity"),
          required("limit", Shape.FORMULA, "reaching it counts"),
          key("deadband", Shape.FORMULA, "how far it must come back past the limit"));

  static final Form ALARM =
      Form.of(
              "alarm",
              "an alarm",
              key("when", Shape.FORMULA, "the condition"),
              key("high", new Of(LIMIT), "or a limit that is reached from below"),
              key("low", new Of(LIMIT), "or one that is reached from above"),
              key("priority", Shape.words(Controller.Priority.class), "how much it matters"),
              key("on_delay", Shape.CONSTANT_TIME, "the condition must last so long"),
              key("off_delay", Shape.CONSTANT_TIME, "it must be gone so long"),
              key("acknowledge", Shape.CONSTANT_TRUTH, "whether it waits for acknowledgement"),
              key("latching", Shape.CONSTANT_TRUTH, "stays until it is acknowledged and reset"),
              key("re_alarm", Shape.CONSTANT_TIME, "unacknowledged again after so long"),
              key("shelve_for", Shape.CONSTANT_TIME, "how long it is shelved at most"),
              key("group", Shape.NAME, "whose acknowledgement reaches it too"),
              key("suppressed", Shape.FORMULA, "set aside by design while this holds"),
              key("retain", Shape.CONSTANT_TRUTH, "TRUE: goes on after a warm restart as it was"),
              key("text", Shape.TEXT, "one line for people"))
          .exactlyOne(List.of("when", "high", "low"));

  static final Form CONTROLLER =
      Form.of(
          "controller",
          "the controller",
          key("types", TYPES, "enumerations by name: their values"),
          key("constants", CONSTANTS, "constants by name"),
          key("inputs", points(INPUT), "points that a wire writes"),
          key("outputs", points(OUTPUT), "points that go to the field"),
          key("operator", points(OPERATOR), "points that the HMI writes"),
          key("internal", points(INTERNAL), "points of the controller alone"),
          key("blocks", points(BLOCK), "instances of function blocks"),
          key("interlocks", points(INTERLOCK), "permissives, interlocks, trips"),
          key("sequences", points(SEQUENCE), "sequential function charts"),
          key("logic", Shape.TEXT, "Structured Text, run in the order written")
              .example("lamp := start;"),
          key("acknowledge", Shape.FORMULA, "its rising edge acknowledges every alarm"),
          key("alarms", points(ALARM), "alarms by name"));

  private ControllerForms() {}

  private static Shape points(Form form) {
    return new Section(Shape.named(new Of(form)));
  }
}
