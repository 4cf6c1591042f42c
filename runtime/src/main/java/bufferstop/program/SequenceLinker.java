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
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToIntFunction;

/** Resolves sequences and collects their actions by target. */
final class SequenceLinker {
  private final Function<SourceText, Expression> condition;
  private final Layout layout;
  private final Owners owners;
  private final Diagnostics problems;
  private final List<SequenceRunner> runners = new ArrayList<>();
  private final List<ActionTarget[]> actions = new ArrayList<>();

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

  SequenceRunner[] runners() {
    return runners.toArray(SequenceRunner[]::new);
  }

  ActionTarget[][] actions() {
    return actions.toArray(ActionTarget[][]::new);
  }

  void link(Controller controller) {
    for (Sequence sequence : controller.sequences()) {
      SequenceRunner runner = runner(sequence);
      actions.add(new ActionLinker(sequence, owners, problems).targets());
      runners.add(runner);
    }
  }

  private SequenceRunner runner(Sequence sequence) {
    List<SequenceRunner.Gate> gates = new ArrayList<>();
    for (Transition transition : sequence.transitions()) {
      gates.add(
          new SequenceRunner.Gate(
              numbers(sequence, transition.from()),
              numbers(sequence, transition.to()),
              condition.apply(transition.when())));
    }
    boolean aborts = sequence.abort() != null;
    return new SequenceRunner(
        cells(sequence, s -> cell(sequence, s, ".X")),
        cells(sequence, s -> cell(sequence, s, ".T")),
        cells(sequence, s -> cell(sequence, s, ".late")),
        sequence.steps().stream().mapToLong(Step::atLeastMicros).toArray(),
        sequence.steps().stream().mapToLong(Step::withinMicros).toArray(),
        initial(sequence),
        gates.toArray(SequenceRunner.Gate[]::new),
        aborts ? condition.apply(sequence.abort().when()) : null,
        aborts ? number(sequence, sequence.abort().to()) : -1);
  }

  private static int initial(Sequence sequence) {
    for (int i = 0; i < sequence.steps().size(); i++) {
      if (sequence.steps().get(i).initial()) {
        return i;
      }
    }
    return 0;
  }

  private static int[] cells(Sequence sequence, ToIntFunction<Step> cell) {
    return sequence.steps().stream().mapToInt(cell).toArray();
  }

  private int cell(Sequence sequence, Step step, String suffix) {
    return layout.controller().find(sequence.name() + "." + step.name() + suffix).index();
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
