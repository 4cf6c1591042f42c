package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Step;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** Resolves sequences and collects their actions by target. */
final class SequenceLinker {
  private final Function<SourceText, Expression> condition;
  private final Scope scope; // of statements in actions
  private final Layout layout;
  private final Owners owners;
  private final Diagnostics problems;
  private final List<Symbol> initial = new ArrayList<>();
  private final List<Statement> evolutions = new ArrayList<>();
  private final List<Statement> controls = new ArrayList<>();
  private final List<Statement> bodies = new ArrayList<>();
  private boolean whole; // no condition of the sequence at hand was wrong

  SequenceLinker(
      Function<SourceText, Expression> condition,
      Scope scope,
      Layout layout,
      Owners owners,
      Diagnostics problems) {
    this.condition = condition;
    this.scope = scope;
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

  /** The first part of step 6: what their actions give, then the actions that are statements. */
  Statement actions() {
    List<Statement> all = new ArrayList<>(controls);
    all.addAll(bodies);
    return Statement.sequence(all);
  }

  void link(Controller controller) {
    SubSequences subSequences = new SubSequences(controller);
    subSequences.check(problems);
    Map<Sequence, SequenceCode> codes = new IdentityHashMap<>();
    for (Sequence sequence : subSequences.outermostFirst()) {
      SubSequences.Runner runner = subSequences.runner(sequence);
      SequenceCode outer = runner == null ? null : codes.get(runner.sequence());
      int outerStep = runner == null ? -1 : runner.step();
      SequenceCode code = new SequenceCode(sequence, outer, outerStep, layout);
      codes.put(sequence, code);
      Statement evolution = evolution(sequence, code);
      if (evolution != null) {
        initial.addAll(code.initial());
        evolutions.add(evolution);
      }
      ActionLinker actions = new ActionLinker(sequence, scope, layout, owners, problems);
      actions.link(code);
      controls.addAll(actions.controls());
      bodies.addAll(actions.bodies());
    }
  }

  /** Null after a diagnostic. */
  private Statement evolution(Sequence sequence, SequenceCode code) {
    List<SequenceCode.Gate> gates = new ArrayList<>();
    List<Symbol> fired = new ArrayList<>();
    whole = true;
    for (Transition transition : sequence.transitions()) {
      SequenceCode.Gate gate =
          new SequenceCode.Gate(
              numbers(sequence, transition.from()),
              numbers(sequence, transition.to()),
              condition(transition.when()));
      gates.add(gate);
      fired.add(layout.remember(sequence.name() + "#fired." + gates.size(), Type.BOOL));
    }
    SequenceCode.Around around = around(sequence);
    return whole ? code.statement(gates, fired, around) : null;
  }

  private SequenceCode.Around around(Sequence sequence) {
    boolean aborts = sequence.abort() != null;
    boolean holds = sequence.hold() != null;
    boolean manual = sequence.manual() != null;
    return new SequenceCode.Around(
        aborts ? condition(sequence.abort().when()) : null,
        aborts ? number(sequence, sequence.abort().to()) : -1,
        holds ? condition(sequence.hold().when()) : null,
        holds && sequence.hold().restart() != null ? condition(sequence.hold().restart()) : null,
        manual ? condition(sequence.manual().when()) : null,
        manual ? condition(sequence.manual().next()) : null);
  }

  private Expression condition(SourceText text) {
    Expression read = condition.apply(text);
    whole &= read != null;
    return read;
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
                Code.UNKNOWN_NAME,
                name.position(),
                "`" + sequence.name() + "` has no step `" + name.text() + "`")
            .expected("a step of this sequence")
            .help(NearNames.question(name.text(), known)));
    return 0;
  }
}
