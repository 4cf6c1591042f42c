package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.ArrayBounds;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Routine;
import bufferstop.model.Routine.Pin;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.ValueType;
import bufferstop.st.BlockType;
import bufferstop.st.Body;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Instance;
import bufferstop.st.Program;
import bufferstop.st.Statement;
import bufferstop.st.StatementReader;
import bufferstop.st.Terms;
import bufferstop.st.UserFunction;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Makes functions and function blocks of users ready to be called. */
final class RoutineLinker {
  private static final String INPUT = "an input is written by the call alone";
  private static final List<Long> ZERO = List.of(0L);
  private static final String OUTPUT = "an output of a block is written by its call alone";

  /** Values in the state of a block, or blocks that hold each other grow without bound. */
  private static final int MOST_MEMORY = 10_000;

  private final BlockTypes types;
  private final Layout layout;
  private final Diagnostics problems;
  private final Map<String, Unit> units = new TreeMap<>(); // by upper-case name
  private final List<Unit> all = new ArrayList<>(); // also those whose name is taken
  private final Map<String, UserFunction> functions = new TreeMap<>(); // likewise
  private final List<Pristine> pristine = new ArrayList<>();

  /** Cells that keep what others begin with in each call. */
  record Pristine(Symbol first, List<Long> bits) {}

  /** A routine with what it comes to. */
  private static final class Unit {
    private final Routine routine;
    private final BodyScope scope;
    private final Body body = Body.ofStatements();
    private final List<Statement> before = new ArrayList<>(); // what its body begins with
    private Symbol result; // of a function
    private boolean entered; // its type is being made

    Unit(Routine routine, BodyScope scope) {
      this.routine = routine;
      this.scope = scope;
    }
  }

  RoutineLinker(BlockTypes types, Layout layout, Diagnostics problems) {
    this.types = types;
    this.layout = layout;
    this.problems = problems;
  }

  /** All functions by upper-case name, once they are declared. */
  Map<String, UserFunction> functions() {
    return functions;
  }

  /** Cells of functions that have a value before the first scan. */
  List<Pristine> pristine() {
    return pristine;
  }

  /** First pass: gives every function its frame and every block its type. */
  void declare(List<Routine> routines) {
    for (Routine routine : routines) {
      Unit unit = new Unit(routine, new BodyScope(routine, layout.controller(), functions));
      all.add(unit);
      if (isFree(routine)) {
        units.put(key(routine.name()), unit);
      }
    }
    for (Unit unit : all) {
      if (unit.routine.isFunction()) {
        frame(unit);
      } else if (!unit.entered) {
        type(unit, new ArrayList<>());
      }
    }
  }

  private static String key(String name) {
    return name.toUpperCase(Locale.ROOT);
  }

  private boolean isFree(Routine routine) {
    String name = routine.name();
    Unit first = units.get(key(name));
    if (first != null) {
      problems.add(
          Diagnostic.error(
                  Code.DECLARED_TWICE, routine.position(), "`" + name + "` is defined twice")
              .note(first.routine.position(), "first here")
              .help("give one of them another name; libraries and project share all names"));
      return false;
    }
    boolean isBlock = types.named(name) != null;
    if (isBlock || ExpressionReader.isFunction(name)) {
      String what = isBlock ? " is a standard function block" : " is a standard function";
      problems.add(
          Diagnostic.error(Code.DECLARED_TWICE, routine.position(), "`" + name + "`" + what)
              .help("give yours another name"));
      return false;
    }
    return true;
  }

  private void frame(Unit unit) {
    Routine routine = unit.routine;
    List<BlockType.Pin> inputs = new ArrayList<>();
    List<Symbol> frame = new ArrayList<>();
    for (Pin pin : routine.inputs()) {
      int cell = layout.remember(routine.name() + "#" + pin.name(), pin.type()).index();
      frame.add(add(unit, pin, pin.name(), cell, Kind.INTERNAL, INPUT));
      inputs.add(plain(pin));
    }
    Pin value =
        new Pin(routine.name(), routine.result(), null, ZERO, false, "", routine.position());
    List<Pin> begun = new ArrayList<>(routine.locals());
    begun.add(value);
    for (Pin pin : begun) {
      int cell = layout.remember(routine.name() + "#" + pin.name(), pin.type()).index();
      unit.result = add(unit, pin, pin.name(), cell, Kind.INTERNAL, null);
      unit.before.add(begin(routine, pin, unit.result));
    }
    if (units.get(key(routine.name())) == unit) {
      functions.put(
          key(routine.name()),
          new UserFunction(routine.name(), inputs, frame, unit.result, unit.body));
    }
  }

  /** What gives a local of a function its initial value; of several cells it is kept beside. */
  private Statement begin(Routine function, Pin local, Symbol first) {
    if (local.type().isSingle()) {
      return Terms.set(first, Terms.value(local.type().type(), local.initial().get(0)));
    }
    Symbol kept = layout.remember(function.name() + "#" + local.name() + "#0", local.type());
    pristine.add(new Pristine(kept, local.initial()));
    return Terms.copy(first, kept, local.type().cells());
  }

  /**
   * Makes a pin known to the body, each element of an array as well.
   *
   * @param cell its first
   * @param refusal why the body may not assign it; null when it may
   * @return its symbol, or that of the first element
   */
  private static Symbol add(Unit unit, Pin pin, String name, int cell, Kind kind, String refusal) {
    ValueType type = pin.type();
    if (!type.isArray()) {
      Symbol symbol = new Symbol(cell, name, type, kind, pin.text(), pin.position());
      unit.scope.add(symbol, refusal);
      return symbol;
    }
    ArrayBounds bounds = type.bounds();
    unit.scope.add(bounds);
    Symbol first = null;
    for (int i = 0; i < bounds.count(); i++) {
      String element = bounds.element(bounds.least() + (long) i);
      Symbol symbol =
          new Symbol(cell + i * type.stride(), element, type, kind, pin.text(), pin.position());
      unit.scope.add(symbol, refusal);
      first = first == null ? symbol : first;
    }
    return first;
  }

  private static BlockType.Pin plain(Pin pin) {
    return new BlockType.Pin(pin.name(), pin.type(), pin.initial(), pin.required(), pin.text());
  }

  /**
   * Makes the type of a block, after those of the blocks in its state.
   *
   * @param path the blocks whose state is being looked at, the outermost first
   */
  private void type(Unit unit, List<Unit> path) {
    unit.entered = true;
    path.add(unit);
    Routine routine = unit.routine;
    List<BlockType.Pin> inputs = routine.inputs().stream().map(p -> plain(p)).toList();
    List<BlockType.Pin> outputs = routine.outputs().stream().map(p -> plain(p)).toList();
    int cell = 0;
    for (Pin pin : routine.inputs()) {
      add(unit, pin, pin.name(), cell, Kind.LOCAL, INPUT);
      cell += pin.type().cells();
    }
    for (Pin pin : routine.outputs()) {
      add(unit, pin, pin.name(), cell, Kind.LOCAL, null);
      cell += pin.type().cells();
    }
    List<BlockType.Pin> memory = new ArrayList<>();
    for (Pin pin : routine.locals()) {
      int next = cell + BlockType.cells(memory);
      BlockType held = pin.block() == null ? null : held(pin, path);
      if (pin.block() == null && hasRoom(pin, next + pin.type().cells())) {
        add(unit, pin, pin.name(), next, Kind.LOCAL, null);
        memory.add(plain(pin));
      } else if (held != null && hasRoom(pin, next + held.size())) {
        hold(unit, pin, held, next, memory);
      }
    }
    path.remove(unit);
    if (units.get(key(routine.name())) == unit) {
      types.add(
          new BlockType(
              routine.name(), inputs, outputs, List.copyOf(memory), unit.body, routine.text()));
    }
  }

  private boolean hasRoom(Pin pin, int cells) {
    if (cells <= MOST_MEMORY) {
      return true;
    }
    problems.doubt(pin.name());
    problems.add(
        Diagnostic.error(
                Code.TOO_MANY,
                pin.position(),
                "with `" + pin.name() + "` the state has " + cells + " values")
            .expected("at most " + MOST_MEMORY + ", those of the instances in it included"));
    return false;
  }

  /** Puts an instance of another block into the state of one. */
  private static void hold(
      Unit unit, Pin pin, BlockType held, int first, List<BlockType.Pin> memory) {
    int cell = first;
    for (List<BlockType.Pin> part : List.of(held.inputs(), held.outputs(), held.memory())) {
      for (BlockType.Pin inner : part) {
        String name = pin.name() + "." + inner.name();
        if (part == held.outputs()) {
          unit.scope.add(
              new Symbol(cell, name, inner.of(), Kind.LOCAL, inner.text(), pin.position()), OUTPUT);
        }
        memory.add(
            new BlockType.Pin(
                name, inner.of(), inner.initial(), false, inner.text(), inner.moment()));
        cell += inner.cells();
      }
    }
    Symbol begin = new Symbol(first, pin.name(), null, Kind.LOCAL, "", "", pin.position());
    unit.scope.add(new Instance(pin.name(), held, begin, pin.position()));
  }

  /** The type of an instance in the state of a block; null after a diagnostic. */
  private BlockType held(Pin pin, List<Unit> path) {
    String name = pin.block().text();
    Unit own = units.get(key(name));
    if (own != null && path.contains(own)) {
      List<String> circle =
          new ArrayList<>(
              path.subList(path.indexOf(own), path.size()).stream()
                  .map(u -> u.routine.name())
                  .toList());
      circle.add(own.routine.name());
      problems.add(
          Diagnostic.error(
                  Code.RECURSION,
                  pin.block().position(),
                  "`" + own.routine.name() + "` holds itself: " + String.join(", ", circle))
              .expected("blocks that do not hold each other in a circle"));
    } else if (own != null && !own.routine.isFunction() && !own.entered) {
      type(own, path);
    }
    BlockType held = types.named(name);
    if (held == null) {
      problems.doubt(pin.name());
      if (own == null || own.routine.isFunction()) {
        types.reportUnknown(pin.block(), problems);
      }
    }
    return held;
  }

  /** Second pass: reads every body, once, whoever uses it. */
  void link() {
    Recursion recursion = new Recursion(problems);
    for (Unit unit : all) {
      int errors = problems.errors();
      Routine routine = unit.routine;
      Program program =
          StatementReader.body(routine.body(), unit.scope, unit.scope::refusal, problems);
      if (routine.isFunction()) {
        recursion.add(unit.body, routine.name(), program.calls());
      }
      boolean hasValue =
          unit.result == null
              || program.writes().stream().anyMatch(w -> w.symbol().equals(unit.result));
      if (!hasValue && problems.errors() == errors) {
        problems.add(
            Diagnostic.error(
                    Code.NO_VALUE,
                    routine.position(),
                    "`" + routine.name() + "` never gets a value")
                .expected("`" + routine.name() + " := ...;` in its body"));
      }
      CallCheck.inBody(unit.scope, program, problems);
      List<Statement> statements = new ArrayList<>(unit.before);
      statements.add(program.statements());
      unit.body.fill(Statement.sequence(statements));
    }
    recursion.report();
  }
}
