package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import java.util.Arrays;

/** Gives every name of the controller its cell. */
final class Declarations {
  private final Layout layout;
  private final Diagnostics problems;
  private Position reported; // so that a declaration of several values is reported once

  Declarations(Layout layout, Diagnostics problems) {
    this.layout = layout;
    this.problems = problems;
  }

  void declare(Controller controller) {
    controller.points().forEach(this::point);
    controller.blocks().forEach(this::block);
    controller.interlocks().forEach(this::interlock);
    controller.sequences().forEach(this::sequence);
    value("alarms.active", Type.BOOL, "an alarm is active", null);
    value("alarms.unacknowledged", Type.BOOL, "an alarm waits for acknowledgement", null);
    for (Controller.Alarm alarm : controller.alarms()) {
      String name = "alarms." + alarm.name();
      value(name + ".active", Type.BOOL, alarm.text(), alarm.position());
      value(name + ".unacknowledged", Type.BOOL, alarm.text(), alarm.position());
    }
  }

  private void point(Point point) {
    if (point.kind() == Kind.OUTPUT) {
      add(point.name(), point.type(), Kind.OUTPUT, Seen.BY_CONTROLLER, point);
      add(point.name(), point.type(), Kind.OUTPUT, Seen.BY_FIELD, point);
    } else {
      add(point.name(), point.type(), point.kind(), Seen.BY_ALL, point);
    }
  }

  private void add(String name, Type type, Kind kind, Seen seen, Point point) {
    Symbol symbol = layout.add(name, type, kind, seen, "", point.text(), point.position());
    if (symbol == null) {
      reportTaken(name, point.position());
    }
  }

  private void value(String name, Type type, String text, Position position) {
    Position declared = position == null ? Position.ofFile("") : position;
    if (layout.add(name, type, Kind.INTERNAL, Seen.BY_ALL, "", text, declared) == null) {
      reportTaken(name, declared);
    }
  }

  private void reportTaken(String name, Position position) {
    if (position.equals(reported)) {
      return;
    }
    reported = position;
    Symbol first = layout.field().find(name);
    Symbol other = first == null ? layout.controller().find(name) : first;
    problems.add(
        Diagnostic.error(position, "`" + name + "` is declared twice")
            .note(other.declared(), "first here")
            .help("give one of them another name"));
  }

  private void block(Controller.Block block) {
    BlockKind kind = BlockKind.named(block.block().text());
    if (kind == null) {
      Name name = block.block();
      var all = Arrays.stream(BlockKind.values()).map(Enum::name).toList();
      problems.add(
          Diagnostic.error(name.position(), "no block named `" + name.text() + "`")
              .expected(String.join(", ", all))
              .help(NearNames.question(name.text(), all)));
      return;
    }
    for (BlockKind.Pin pin : kind.outputs()) {
      value(block.name() + "." + pin.name(), pin.type(), kind + " " + pin.name(), block.position());
    }
  }

  private void interlock(Controller.Interlock interlock) {
    boolean trip = interlock.kind() == Controller.InterlockKind.TRIP;
    String name = interlock.name();
    value(name + (trip ? ".tripped" : ".ok"), Type.BOOL, interlock.text(), interlock.position());
    if (hasNamedCauses(interlock)) {
      for (Controller.Cause cause : interlock.causes()) {
        value(name + ".first." + cause.name(), Type.BOOL, "first-out", cause.position());
      }
    }
  }

  /** A condition given alone has no name to keep a first-out under. */
  static boolean hasNamedCauses(Controller.Interlock interlock) {
    return interlock.causes().size() != 1 || !interlock.causes().get(0).name().equals("cause");
  }

  private void sequence(Controller.Sequence sequence) {
    for (Controller.Step step : sequence.steps()) {
      String name = sequence.name() + "." + step.name();
      value(name + ".X", Type.BOOL, step.text(), step.position());
      value(name + ".T", Type.TIME, "time in step", step.position());
      value(name + ".late", Type.BOOL, "longer in step than allowed", step.position());
    }
  }
}
