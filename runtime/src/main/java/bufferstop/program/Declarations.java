package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Gives every name of the controller its cell. */
final class Declarations {
  private static final Position NOWHERE = Position.ofFile(""); // what no file declares

  private final BlockTypes types;
  private final Layout layout;
  private final Diagnostics problems;
  private final Map<String, Position> heads = new TreeMap<>();

  Declarations(BlockTypes types, Layout layout, Diagnostics problems) {
    this.types = types;
    this.layout = layout;
    this.problems = problems;
  }

  void declare(Controller controller) {
    layout.define(controller.definitions());
    controller.definitions().constants().forEach(c -> head(c.name(), c.position()));
    controller.definitions().arrays().forEach(a -> head(a.name(), a.position()));
    controller.points().forEach(this::point);
    controller.blocks().forEach(this::block);
    controller.interlocks().forEach(this::interlock);
    SubSequences subSequences = new SubSequences(controller);
    for (Controller.Sequence sequence : controller.sequences()) {
      sequence(sequence, subSequences.canHold(sequence));
    }
    value("alarms.active", Type.BOOL, "an alarm is active", NOWHERE);
    value("alarms.unacknowledged", Type.BOOL, "an alarm waits for acknowledgement", NOWHERE);
    value("alarms.silent", Type.BOOL, "an alarm is set aside", NOWHERE);
    Map<String, Position> alarms = new TreeMap<>();
    for (Controller.Alarm alarm : controller.alarms()) {
      String name = "alarms." + alarm.name();
      unique(alarms, alarm.name(), name, alarm.position());
      value(name + ".active", Type.BOOL, alarm.text(), alarm.position());
      value(name + ".unacknowledged", Type.BOOL, alarm.text(), alarm.position());
      value(name + ".latched", Type.BOOL, "waits for its reset", alarm.position());
      value(name + ".shelved", Type.BOOL, "set aside by the operator", alarm.position());
      value(name + ".suppressed", Type.BOOL, "set aside by design", alarm.position());
    }
  }

  private void point(Point point) {
    if (!point.name().endsWith("]")) { // the head of an element is its array
      head(point.name(), point.position());
    }
    if (point.kind() == Kind.OUTPUT) {
      add(point, Seen.BY_CONTROLLER);
      add(point, Seen.BY_FIELD);
    } else {
      add(point, Seen.BY_ALL);
    }
  }

  private void add(Point point, Seen seen) {
    layout.add(
        point.name(),
        point.type(),
        point.kind(),
        seen,
        "",
        point.text(),
        point.position(),
        point.enumeration(),
        point.length());
  }

  private void value(String name, Type type, String text, Position position) {
    layout.add(name, type, Kind.INTERNAL, Seen.BY_ALL, "", text, position);
  }

  /** Points, blocks, interlocks and sequences share one set of names. */
  private void head(String name, Position position) {
    unique(heads, name, name, position);
  }

  private void unique(Map<String, Position> taken, String key, String shown, Position position) {
    Position first = taken.putIfAbsent(key.toLowerCase(Locale.ROOT), position);
    if (first != null) {
      problems.add(
          Diagnostic.error(Code.DECLARED_TWICE, position, "`" + shown + "` is declared twice")
              .note(first, "first here")
              .help("give one of them another name; case does not tell names apart"));
    }
  }

  private void block(Controller.Block block) {
    head(block.name(), block.position());
    BlockType type = types.named(block.block().text());
    if (type == null) {
      types.reportUnknown(block.block(), problems);
      problems.doubt(block.name());
      return;
    }
    type.inputs().forEach(pin -> remember(block.name(), pin));
    for (BlockType.Pin pin : type.outputs()) {
      layout.add(
          block.name() + "." + pin.name(),
          pin.type(),
          Kind.INTERNAL,
          Seen.BY_ALL,
          "",
          type.name() + " " + pin.name(),
          block.position(),
          pin.of().enumeration(),
          pin.of().length());
    }
    type.memory().forEach(pin -> remember(block.name(), pin));
  }

  private void remember(String block, BlockType.Pin pin) {
    layout.remember(block + "#" + pin.name(), pin.of());
  }

  private void interlock(Controller.Interlock interlock) {
    boolean trip = interlock.kind() == Controller.InterlockKind.TRIP;
    String name = interlock.name();
    head(name, interlock.position());
    value(name + (trip ? ".tripped" : ".ok"), Type.BOOL, interlock.text(), interlock.position());
    if (hasNamedCauses(interlock)) {
      Map<String, Position> causes = new TreeMap<>();
      for (Controller.Cause cause : interlock.causes()) {
        unique(causes, cause.name(), name + "." + cause.name(), cause.position());
        value(name + ".first." + cause.name(), Type.BOOL, "first-out", cause.position());
        cause(name + "." + cause.name(), cause);
      }
    }
    value(name + ".first_time", Type.TIME, "time of the first-out", interlock.position());
    if (interlock.group() != null) {
      group("groups." + interlock.group().text(), interlock);
    }
  }

  private void cause(String name, Controller.Cause cause) {
    Position place = cause.position();
    if (cause.vote() != null && cause.vote().differMicros() > 0) {
      value(name + ".differ", Type.BOOL, "channels differ", place);
    }
    if (cause.bypass() != null) {
      value(name + ".bypassed", Type.BOOL, "bypassed", place);
      value(name + ".would_act", Type.BOOL, "would act without its bypass", place);
      value(name + ".bypasses", Type.UDINT, "times bypassed", place);
      value(name + ".would_acts", Type.UDINT, "times it would have acted", place);
    }
  }

  private void group(String name, Controller.Interlock interlock) {
    if (layout.controller().find(name + ".first_time") == null) {
      value(name + ".first_time", Type.TIME, "time of the first-out", interlock.position());
    }
    value(name + ".first." + interlock.name(), Type.BOOL, "first-out", interlock.position());
  }

  /** A condition given alone has no name to keep a first-out under. */
  static boolean hasNamedCauses(Controller.Interlock interlock) {
    return interlock.causes().size() != 1 || !interlock.causes().get(0).name().equals("cause");
  }

  private void sequence(Controller.Sequence sequence, boolean canHold) {
    head(sequence.name(), sequence.position());
    Map<String, Position> parts = new TreeMap<>();
    for (Controller.Step step : sequence.steps()) {
      String name = sequence.name() + "." + step.name();
      unique(parts, step.name(), name, step.position());
      value(name + ".X", Type.BOOL, step.text(), step.position());
      value(name + ".T", Type.TIME, "time in step", step.position());
      value(name + ".late", Type.BOOL, "longer in step than allowed", step.position());
    }
    for (Controller.StatementAction action : sequence.actions()) {
      String name = sequence.name() + "." + action.name().text();
      unique(parts, action.name().text(), name, action.name().position());
      notAPoint(action.name());
      value(name + ".Q", Type.BOOL, "action is asked for", action.name().position());
    }
    states(sequence, canHold);
  }

  /** In the actions of a step its name must mean one thing. */
  private void notAPoint(Name action) {
    Position point = heads.get(action.text().toLowerCase(Locale.ROOT));
    if (point != null) {
      problems.add(
          Diagnostic.error(
                  Code.DECLARED_TWICE,
                  action.position(),
                  "`" + action.text() + "` is an action and a name besides")
              .note(point, "the other")
              .help("give one of them another name, so that `do` says which is meant"));
    }
  }

  private void states(Controller.Sequence sequence, boolean canHold) {
    String name = sequence.name();
    Position place = sequence.position();
    if (canHold) {
      value(name + ".held", Type.BOOL, "stands still", place);
    }
    if (sequence.manual() != null) {
      value(name + ".manual", Type.BOOL, "stepped by hand", place);
    }
    if (sequence.steps().stream().anyMatch(Controller.Step::isFinal)) {
      value(name + ".done", Type.BOOL, "in a final step", place);
    }
  }
}
