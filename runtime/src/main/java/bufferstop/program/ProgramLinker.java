package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostics;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Program;
import bufferstop.st.Statement;
import bufferstop.st.StatementReader;
import java.util.ArrayList;
import java.util.List;

/** Makes a declared controller ready to scan, in two passes: the door of this room. */
public final class ProgramLinker {
  private final Controller controller;
  private final Layout layout;
  private final Diagnostics problems;
  private final List<Integer> initialCells = new ArrayList<>();
  private final List<Long> initialValues = new ArrayList<>();

  private ProgramLinker(Controller controller, Layout layout, Diagnostics problems) {
    this.controller = controller;
    this.layout = layout;
    this.problems = problems;
  }

  /** First pass: gives every name of the controller its cell, so that other rooms may use it. */
  public static void declare(Controller controller, Layout layout, Diagnostics problems) {
    new Declarations(BlockTypes.of(), layout, problems).declare(controller);
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
    Outputs outputs = new Outputs(controller, layout);
    Owners owners = new Owners(controller, layout, problems);
    Statement blocks = blocks();
    InterlockLinker interlocks = new InterlockLinker(this::condition, layout, problems);
    Statement guarded = interlocks.link(controller, outputs);
    SequenceLinker sequences = new SequenceLinker(this::condition, layout, owners, problems);
    sequences.link(controller);
    Program logic =
        StatementReader.read(controller.logic(), layout.controller(), owners::refusal, problems);
    owners.claimLogic(logic);
    Statement alarms = new AlarmLinker(controller, layout, problems).link();
    if (problems.hasErrors()) {
      return null;
    }
    for (Point point : controller.points()) {
      if (point.kind() == Kind.OPERATOR || point.kind() == Kind.INTERNAL) {
        initially(layout.controller().find(point.name()), point.initial());
      }
    }
    interlocks.initiallyTrue().forEach(state -> initially(state, 1));
    sequences.initial().forEach(step -> initially(step, 1));
    return new ControllerProgram(
        new ControllerProgram.Parts(
            initialCells.stream().mapToInt(Integer::intValue).toArray(),
            initialValues.stream().mapToLong(Long::longValue).toArray(),
            blocks,
            guarded,
            sequences.evolutions(),
            logic.statements(),
            sequences.actions(),
            outputs,
            alarms));
  }

  private void initially(Symbol symbol, long bits) {
    initialCells.add(symbol.index());
    initialValues.add(bits);
  }

  private Expression condition(SourceText text) {
    return ExpressionReader.read(text, layout.controller(), Type.BOOL, problems);
  }

  private Statement blocks() {
    BlockTypes types = BlockTypes.of();
    List<Statement> calls = new ArrayList<>();
    for (Controller.Block block : controller.blocks()) {
      BlockType type = types.named(block.block().text());
      if (type != null) {
        Symbol first = types.instance(block.name(), type, layout);
        initialPins(type, first);
        calls.add(new BlockLinker(layout, problems).link(block, type, first));
      }
    }
    return Statement.sequence(calls);
  }

  private void initialPins(BlockType type, Symbol first) {
    int cell = first.index();
    for (List<BlockType.Pin> pins : List.of(type.inputs(), type.outputs(), type.memory())) {
      for (BlockType.Pin pin : pins) {
        initially(layout.symbol(cell++), pin.initial());
      }
    }
  }
}
