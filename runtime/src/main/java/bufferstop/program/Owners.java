package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.st.Program;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Sees that every point has one writer: one sequence's actions, its statements, or the logic. */
final class Owners {
  private record Owner(String who, Position position) {}

  private final Map<Integer, Point> writable = new TreeMap<>();
  private final Map<Integer, Owner> owners = new TreeMap<>();
  private final Set<String> reported = new TreeSet<>(); // one complaint a point and writer
  private final Layout layout;
  private final Diagnostics problems;

  Owners(Controller controller, Layout layout, Diagnostics problems) {
    this.layout = layout;
    this.problems = problems;
    for (Point point : controller.points()) {
      if (point.kind() == Kind.OUTPUT || point.kind() == Kind.INTERNAL) {
        Symbol symbol = layout.controller().find(point.name());
        if (symbol != null) {
          writable.put(symbol.index(), point);
        }
      }
    }
  }

  /** Why the logic may not assign a symbol; null when it may. */
  String refusal(Symbol symbol) {
    if (writable.containsKey(symbol.index())) {
      return null;
    }
    return switch (symbol.kind()) {
      case INPUT -> "an input is written by its wire alone";
      case OPERATOR -> "an operator point is written by the HMI alone";
      default -> "only outputs and internal points can be assigned";
    };
  }

  /** The target of an action on a point, or null after a diagnostic. */
  Symbol actionTarget(Name target, Sequence sequence) {
    Symbol symbol = layout.controller().find(target.text());
    boolean doubted =
        problems.doubts(target.text()) || problems.doubts(sequence.name() + "." + target.text());
    if (symbol == null && doubted) {
      return null;
    }
    if (symbol == null) {
      List<String> names = new ArrayList<>();
      writable.values().stream()
          .filter(p -> p.type() == Type.BOOL)
          .forEach(p -> names.add(p.name()));
      sequence.actions().forEach(action -> names.add(action.name().text()));
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME, target.position(), "no point named `" + target.text() + "`")
              .expected("a BOOL output or internal point")
              .help(NearNames.question(target.text(), names)));
      return null;
    }
    String refusal = refusal(symbol);
    if (refusal != null || symbol.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  Code.CANNOT_BE_ASSIGNED,
                  target.position(),
                  "no action can write `" + target.text() + "`")
              .expected("a BOOL output or internal point")
              .note(symbol.declared(), refusal == null ? "it is " + symbol.type() : refusal));
      return null;
    }
    claim(symbol, "sequence " + sequence.name(), target.position());
    return symbol;
  }

  /**
   * Claims all that statements of a sequence write. They are a writer apart from its other actions,
   * since those write their points in every scan. Source of the rule: IEC 60848:2013, an output is
   * not both assigned and allocated [from memory, not re-read].
   */
  void claimStatements(Program statements, String sequence) {
    for (Program.Write write : statements.writes()) {
      claim(write.symbol(), "an action of statements in sequence " + sequence, write.position());
    }
  }

  /** Claims all that the logic writes. */
  void claimLogic(Program logic) {
    for (Program.Write write : logic.writes()) {
      claim(write.symbol(), "the logic", write.position());
    }
  }

  private void claim(Symbol symbol, String who, Position position) {
    Owner first = owners.putIfAbsent(symbol.index(), new Owner(who, position));
    boolean second = first != null && !first.who.equals(who);
    if (second && reported.add(symbol.index() + " " + who)) {
      problems.add(
          Diagnostic.error(Code.TWO_WRITERS, position, "`" + symbol.name() + "` has two writers")
              .note(first.position, first.who + " writes it too")
              .help("let one of them write an internal point and the other read it"));
    }
  }
}
