package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Resolves permissives, interlocks and trips. */
final class InterlockLinker {
  private final Function<SourceText, Expression> condition;
  private final Layout layout;
  private final Diagnostics problems;
  private final List<Symbol> initiallyTrue = new ArrayList<>();

  InterlockLinker(Function<SourceText, Expression> condition, Layout layout, Diagnostics problems) {
    this.condition = condition;
    this.layout = layout;
    this.problems = problems;
  }

  /** Step 3 of the scan. */
  Statement link(Controller controller, Outputs outputs) {
    List<Statement> all = new ArrayList<>();
    for (Interlock interlock : controller.interlocks()) {
      Statement statement = statement(interlock, outputs);
      if (statement != null) {
        all.add(statement);
      }
    }
    return Statement.sequence(all);
  }

  /** States before the first scan of what needs its conditions to hold: they do. */
  List<Symbol> initiallyTrue() {
    return initiallyTrue;
  }

  /** Null after a diagnostic. */
  private Statement statement(Interlock interlock, Outputs outputs) {
    if (interlock.kind() == InterlockKind.PERMISSIVE && !interlock.makesSafe().isEmpty()) {
      problems.add(
          Diagnostic.error(
                  interlock.makesSafe().get(0).position(),
                  "a permissive does not stop what runs, so it makes nothing safe")
              .help("make `" + interlock.name() + "` an interlock or a trip"));
    }
    InterlockCode code = new InterlockCode(interlock, layout);
    List<Expression> conditions = new ArrayList<>();
    for (Cause cause : interlock.causes()) {
      conditions.add(condition.apply(cause.condition()));
    }
    Expression reset = interlock.reset() == null ? null : condition.apply(interlock.reset());
    int[] safe = safeOutputs(interlock, outputs);
    if (conditions.contains(null) || code.isTrip() && reset == null) {
      return null;
    }
    if (!code.isTrip()) {
      initiallyTrue.add(code.state());
    }
    return code.statement(conditions, reset, outputs, safe);
  }

  private int[] safeOutputs(Interlock interlock, Outputs outputs) {
    List<Integer> numbers = new ArrayList<>();
    for (Name output : interlock.makesSafe()) {
      int number = outputs.number(output.text());
      if (number < 0 && problems.doubts(output.text())) {
        continue;
      }
      if (number < 0) {
        Symbol other = layout.controller().find(output.text());
        problems.add(
            Diagnostic.error(output.position(), "no output named `" + output.text() + "`")
                .expected("an output")
                .note(
                    other == null ? Position.ofFile("") : other.declared(),
                    other == null ? "" : "`" + other.name() + "` is no output")
                .help(NearNames.question(output.text(), outputs.names())));
      } else {
        numbers.add(number);
      }
    }
    return numbers.stream().mapToInt(Integer::intValue).toArray();
  }
}
