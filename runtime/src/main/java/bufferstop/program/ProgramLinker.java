package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostics;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Program;
import bufferstop.st.StatementReader;
import java.util.ArrayList;
import java.util.List;

/** Makes a declared controller ready to scan, in two passes: the door of this room. */
public final class ProgramLinker {
  private final Controller controller;
  private final Layout layout;
  private final Diagnostics problems;

  private ProgramLinker(Controller controller, Layout layout, Diagnostics problems) {
    this.controller = controller;
    this.layout = layout;
    this.problems = problems;
  }

  /** First pass: gives every name of the controller its cell, so that other rooms may use it. */
  public static void declare(Controller controller, Layout layout, Diagnostics problems) {
    new Declarations(layout, problems).declare(controller);
  }

  /**
   * Second pass: resolves every expression.
   *
   * @return null when a problem forbids a run; all problems are reported
   */
  public static ControllerProgram link(Controller controller, Layout layout, Diagnostics problems) {
    return new ProgramLinker(controller, layout, problems).program();
  }

  private ControllerProgram program() {
    OutputTable outputs = OutputTable.of(controller, layout);
    Owners owners = new Owners(controller, layout, problems);
    BlockInstance[] blocks = blocks();
    InterlockGroup[] interlocks =
        new InterlockLinker(this::condition, layout, problems).link(controller, outputs);
    SequenceLinker sequences = new SequenceLinker(this::condition, layout, owners, problems);
    sequences.link(controller);
    Program logic =
        StatementReader.read(controller.logic(), layout.controller(), owners::refusal, problems);
    if (logic != null) {
      owners.claimLogic(logic);
    }
    AlarmUnit[] alarms = alarms();
    Expression acknowledge =
        controller.acknowledge() == null ? null : condition(controller.acknowledge());
    if (problems.hasErrors()) {
      return null;
    }
    List<Point> points = initialised();
    return new ControllerProgram(
        new ControllerProgram.Parts(
            points.stream().mapToInt(this::programCell).toArray(),
            points.stream().mapToLong(Point::initial).toArray(),
            blocks,
            interlocks,
            sequences.runners(),
            sequences.actions(),
            logic,
            outputs.outputs(),
            alarms,
            acknowledge,
            cell("alarms.active"),
            cell("alarms.unacknowledged")));
  }

  private List<Point> initialised() {
    return controller.points().stream()
        .filter(p -> p.kind() == Kind.OPERATOR || p.kind() == Kind.INTERNAL)
        .toList();
  }

  private int programCell(Point point) {
    return layout.controller().find(point.name()).index();
  }

  private int cell(String name) {
    return layout.controller().find(name).index();
  }

  private Expression condition(SourceText text) {
    return ExpressionReader.read(text, layout.controller(), Type.BOOL, problems);
  }

  private BlockInstance[] blocks() {
    List<BlockInstance> all = new ArrayList<>();
    for (Controller.Block block : controller.blocks()) {
      BlockKind kind = BlockKind.named(block.block().text());
      if (kind != null) {
        all.add(new BlockLinker(layout, problems).link(block, kind));
      }
    }
    return all.toArray(BlockInstance[]::new);
  }

  private AlarmUnit[] alarms() {
    boolean needsAcknowledge = controller.acknowledge() != null;
    List<AlarmUnit> all = new ArrayList<>();
    for (Controller.Alarm alarm : controller.alarms()) {
      Expression when = condition(alarm.when());
      Symbol active = layout.controller().find("alarms." + alarm.name() + ".active");
      Symbol waiting = layout.controller().find("alarms." + alarm.name() + ".unacknowledged");
      if (when != null) {
        all.add(
            new AlarmUnit(
                when, alarm.delayMicros(), needsAcknowledge, active.index(), waiting.index()));
      }
    }
    return all.toArray(AlarmUnit[]::new);
  }
}
