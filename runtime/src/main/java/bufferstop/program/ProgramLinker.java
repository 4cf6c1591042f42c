package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Point;
import bufferstop.model.Retained;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Instance;
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
  private final BlockTypes types = BlockTypes.of();
  private final RoutineLinker routines;
  private final ControllerScope scope;
  private final List<Integer> initialCells = new ArrayList<>();
  private final List<Long> initialValues = new ArrayList<>();
  private final List<Retained> retained = new ArrayList<>();
  private int[] declaredCells; // first and end of those of the first pass

  private ProgramLinker(Controller controller, Layout layout, Diagnostics problems) {
    this.controller = controller;
    this.layout = layout;
    this.problems = problems;
    this.routines = new RoutineLinker(types, layout, problems);
    this.scope = new ControllerScope(layout.controller(), routines.functions());
  }

  /** First pass: gives every name of the controller its cell, so that other rooms may use it. */
  public static ProgramLinker declare(Controller controller, Layout layout, Diagnostics problems) {
    ProgramLinker linker = new ProgramLinker(controller, layout, problems);
    int first = layout.size();
    linker.routines.declare(controller.routines());
    new Declarations(linker.types, layout, problems).declare(controller);
    linker.declaredCells = new int[] {first, layout.size()};
    return linker;
  }

  /**
   * Second pass: resolves every expression.
   *
   * @return null when a problem forbids a run; all problems are reported
   */
  public ControllerProgram link() {
    int first = layout.size();
    routines.link();
    instances();
    Outputs outputs = new Outputs(controller, layout);
    Owners owners = new Owners(controller, layout, problems);
    Program logic = StatementReader.read(controller.logic(), scope, owners::refusal, problems);
    Statement blocks = blocks(logic);
    InterlockLinker interlocks = new InterlockLinker(this::condition, layout, problems);
    Statement guarded = interlocks.link(controller, outputs);
    ControllerScope inActions = new ControllerScope(layout.controller(), routines.functions());
    SequenceLinker sequences =
        new SequenceLinker(this::condition, inActions, layout, owners, problems);
    sequences.link(controller);
    owners.claimLogic(logic);
    AlarmLinker alarmLinker = new AlarmLinker(controller, scope, layout, problems);
    Statement alarms = alarmLinker.link();
    if (problems.hasErrors()) {
      return null;
    }
    ChartChecks.check(controller, problems);
    for (Point point : controller.points()) {
      if (point.kind() == Kind.OPERATOR || point.kind() == Kind.INTERNAL) {
        initially(point);
        if (point.retain()) {
          retained.add(RetainedCode.point(point, layout));
        }
      }
    }
    retained.addAll(interlocks.retained());
    retained.addAll(alarmLinker.retained());
    alarmLinker.initiallyTrue().forEach(state -> initially(state, 1));
    routines.pristine().forEach(p -> initially(p.first().index(), p.bits()));
    interlocks.initiallyTrue().forEach(state -> initially(state, 1));
    sequences.initial().forEach(step -> initially(step, 1));
    return new ControllerProgram(
        new ControllerProgram.Parts(
            new int[] {declaredCells[0], declaredCells[1], first, layout.size()},
            initialCells.stream().mapToInt(Integer::intValue).toArray(),
            initialValues.stream().mapToLong(Long::longValue).toArray(),
            blocks,
            guarded,
            sequences.evolutions(),
            logic.statements(),
            sequences.actions(),
            outputs,
            alarms,
            List.copyOf(retained)));
  }

  private void initially(Point point) {
    Symbol symbol = layout.controller().find(point.name());
    if (point.type() != Type.STRING) {
      initially(symbol, point.initial());
      return;
    }
    initially(symbol.index(), StringCells.packed(point.initialText()));
  }

  private void initially(Symbol symbol, long bits) {
    initialCells.add(symbol.index());
    initialValues.add(bits);
  }

  private Expression condition(SourceText text) {
    return ExpressionReader.read(text, scope, Type.BOOL, problems);
  }

  private void instances() {
    for (Controller.Block block : controller.blocks()) {
      BlockType type = types.named(block.block().text());
      if (type != null) {
        Symbol first = types.instance(block.name(), type, layout);
        initialPins(type, first);
        if (block.retain()) {
          retained.add(RetainedCode.block(block.name(), type, first));
        }
        scope.add(new Instance(block.name(), type, first, block.position()));
      }
    }
  }

  /** The blocks that the logic does not call, which are those with inputs where declared. */
  private Statement blocks(Program logic) {
    List<Statement> calls = new ArrayList<>();
    for (Controller.Block block : controller.blocks()) {
      Instance instance = scope.instance(block.name());
      List<Program.BlockCall> byLogic =
          instance == null ? List.of() : CallCheck.calls(instance, logic);
      if (!byLogic.isEmpty() && block.inputs().isEmpty()) {
        CallCheck.needed(instance, byLogic, problems);
      } else if (instance != null) {
        byLogic.forEach(this::refuseSecondCaller);
        calls.add(
            new BlockLinker(scope, layout, problems)
                .link(block, instance.type(), instance.first()));
      }
    }
    return Statement.sequence(calls);
  }

  private void refuseSecondCaller(Program.BlockCall call) {
    String name = call.instance().name();
    problems.add(
        Diagnostic.error(
                Code.TWO_WRITERS,
                call.position(),
                "`" + name + "` is called with the blocks already")
            .note(call.instance().declared(), "it has inputs where it is declared")
            .help("take its inputs out there, or this call out of the logic"));
  }

  private void initialPins(BlockType type, Symbol first) {
    int cell = first.index();
    for (List<BlockType.Pin> pins : List.of(type.inputs(), type.outputs(), type.memory())) {
      for (BlockType.Pin pin : pins) {
        initially(cell, pin.initial());
        cell += pin.cells();
      }
    }
  }

  /** The cells of a value, from the first on. */
  private void initially(int first, List<Long> bits) {
    for (int i = 0; i < bits.size(); i++) {
      initially(layout.symbol(first + i), bits.get(i));
    }
  }
}
