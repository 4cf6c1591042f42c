package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Step;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Resolves sequences and collects their actions by target. */
final class SequenceLinker {
  private final Function<SourceText, Expression> condition;
  private final Layout layout;
  private final Owners owners;
  private final Diagnostics problems;
  private final List<Symbol> initial = new ArrayList<>();
  private final List<Statement> evolutions = new ArrayList<>();
  private final List<Statement> actions = new ArrayList<>();

  SequenceLinker(
      Function<SourceText, Expression> condition,
      Layout layout,
      Owners owners,
      Diagnostics problems) {
    this.condition = condition;
    this.layout = layout;
    this.owners = owners;
    this.problems = problems;
  }

  /** Steps active before the first scan. */
  List<Symbol> initial() {
    return initial;
  }

  /** Step 4 of the scan: the evolution of every sequence. */
  Statement evolutions() {
    return Statement.sequence(evolutions);
  }

  /** The first part of step 6: what their actions give. */
  Statement actions() {
    return Statement.sequence(actions);
  }

  void link(Controller controller) {
    for (Sequence sequence : controller.sequences()) {
      SequenceCode code = new SequenceCode(sequence, layout);
      Statement evolution = evolution(sequence, code);
      if (evolution != null) {
        initial.addAll(code.initial());
        evolutions.add(evolution);
      }
      actions.addAll(new ActionLinker(sequence, owners, problems).statements(code, layout));
    }
  }

  /** Null after a diagnostic. */
  private Statement evolution(Sequence sequence, SequenceCode code) {
    List<SequenceCode.Gate> gates = new ArrayList<>();
    List<Symbol> fired = new ArrayList<>();
    boolean whole = true;
    for (Transition transition : sequence.transitions()) {
      SequenceCode.Gate gate =
          new SequenceCode.Gate(
              numbers(sequence, transition.from()),
              numbers(sequence, transition.to()),
              condition.apply(transition.when()));
      whole &= gate.when() != null;
      gates.add(gate);
      fired.add(layout.remember(sequence.name() + "#fired." + gates.size(), Type.BOOL));
    }
    boolean aborts = sequence.abort() != null;
    Expression abortWhen = aborts ? condition.apply(sequence.abort().when()) : null;
    int abortTo = aborts ? number(sequence, sequence.abort().to()) : -1;
    whole &= !aborts || abortWhen != null;
    return whole ? code.statement(gates, fired, abortWhen, abortTo) : null;
  }

  private int[] numbers(Sequence sequence, List<Name> names) {
    return names.stream().mapToInt(n -> number(sequence, n)).toArray();
  }

  private int number(Sequence sequence, Name name) {
    List<String> known = sequence.steps().stream().map(Step::name).toList();
    for (int i = 0; i < known.size(); i++) {
      if (known.get(i).equalsIgnoreCase(name.text())) {
        return i;
      }
    }
    if (problems.doubts(sequence.name() + "." + name.text())) {
      return 0;
    }
    problems.add(
        Diagnostic.error(
                name.position(), "`" + sequence.name() + "` has no step `" + name.text() + "`")
            .expected("a step of this sequence")
            .help(NearNames.question(name.text(), known)));
    return 0;
  }
}
