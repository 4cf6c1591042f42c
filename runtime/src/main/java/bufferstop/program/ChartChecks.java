package bufferstop.program;

import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.StatementAction;
import bufferstop.model.Controller.Step;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * Warns of charts that do what they say but hardly what was meant: steps that nothing leads to,
 * steps without an exit, joins that never come together, steps entered while they are active.
 * Source of the list: IEC 61131-3:2003, Annex E, unsafe or unreachable SFC [second-hand]; that they
 * are warnings, since one evolution says what happens all the same [project choice].
 */
final class ChartChecks {
  /** Situations looked at before a chart is left as too large to tell. */
  private static final int MOST_SITUATIONS = 2_000;

  private record Gate(BitSet from, BitSet to, Transition transition) {}

  private final Sequence sequence;
  private final Diagnostics problems;
  private final List<Gate> gates = new ArrayList<>();

  private ChartChecks(Sequence sequence, Diagnostics problems) {
    this.sequence = sequence;
    this.problems = problems;
    for (Transition transition : sequence.transitions()) {
      gates.add(new Gate(steps(transition.from()), steps(transition.to()), transition));
    }
  }

  /** Looks at every sequence of a controller that is without errors. */
  static void check(Controller controller, Diagnostics problems) {
    for (Sequence sequence : controller.sequences()) {
      ChartChecks checks = new ChartChecks(sequence, problems);
      checks.unusedActions();
      checks.exits();
      checks.situations(checks.reached());
    }
  }

  private BitSet steps(List<Name> names) {
    BitSet steps = new BitSet();
    names.forEach(name -> steps.set(step(name)));
    return steps;
  }

  private int step(Name name) {
    for (int i = 0; i < sequence.steps().size(); i++) {
      if (sequence.steps().get(i).name().equalsIgnoreCase(name.text())) {
        return i;
      }
    }
    throw new IllegalStateException("a step that was not found before: " + name.text());
  }

  private void warn(Diagnostic warning) {
    problems.add(warning);
  }

  private void unusedActions() {
    for (StatementAction action : sequence.actions()) {
      boolean used =
          sequence.steps().stream()
              .flatMap(step -> step.actions().stream())
              .map(Action::target)
              .anyMatch(target -> target.text().equalsIgnoreCase(action.name().text()));
      if (!used) {
        warn(
            Diagnostic.warning(
                    Code.NEVER_CALLED,
                    action.name().position(),
                    "no step asks for `" + action.name().text() + "`")
                .help("name it in the `do` of a step, or take it away"));
      }
    }
  }

  private void exits() {
    for (int i = 0; i < sequence.steps().size(); i++) {
      Step step = sequence.steps().get(i);
      int number = i;
      if (!step.isFinal() && gates.stream().noneMatch(gate -> gate.from.get(number))) {
        warn(
            Diagnostic.warning(
                    Code.STEP_WITHOUT_EXIT,
                    step.position(),
                    "no transition leads out of `" + sequence.name() + "." + step.name() + "`")
                .help("add one, or say `final: TRUE` where the sequence is to end"));
      }
    }
  }

  private BitSet initial() {
    BitSet initial = new BitSet();
    for (int i = 0; i < sequence.steps().size(); i++) {
      initial.set(i, sequence.steps().get(i).initial());
    }
    return initial;
  }

  /** Steps that transitions or an abort lead to, one at a time; reports the others. */
  private BitSet reached() {
    BitSet reached = initial();
    if (sequence.abort() != null) {
      reached.set(step(sequence.abort().to()));
    }
    boolean grows = true;
    while (grows) {
      int before = reached.cardinality();
      gates.stream().filter(g -> within(g.from, reached)).forEach(g -> reached.or(g.to));
      grows = reached.cardinality() > before;
    }
    for (int i = 0; i < sequence.steps().size(); i++) {
      if (!reached.get(i)) {
        Step step = sequence.steps().get(i);
        warn(
            Diagnostic.warning(
                    Code.UNREACHABLE_STEP,
                    step.position(),
                    "nothing leads to `" + sequence.name() + "." + step.name() + "`")
                .help("lead a transition from a step that is reached to it"));
      }
    }
    return reached;
  }

  private static boolean within(BitSet part, BitSet whole) {
    BitSet rest = (BitSet) part.clone();
    rest.andNot(whole);
    return rest.isEmpty();
  }

  /** Goes through all situations, one transition at a time, as long as there are not too many. */
  private void situations(BitSet reached) {
    Set<BitSet> seen = new TreeSet<>(Comparator.comparing(BitSet::toString));
    Deque<BitSet> open = new ArrayDeque<>();
    see(initial(), seen, open);
    if (sequence.abort() != null) {
      BitSet aborted = new BitSet();
      aborted.set(step(sequence.abort().to()));
      see(aborted, seen, open);
    }
    List<Gate> ever = new ArrayList<>();
    List<Gate> unsafe = new ArrayList<>();
    while (!open.isEmpty()) {
      BitSet situation = open.remove();
      for (Gate gate : gates) {
        if (within(gate.from, situation)) {
          ever.add(gate);
          BitSet next = (BitSet) situation.clone();
          next.andNot(gate.from);
          if (next.intersects(gate.to) && !unsafe.contains(gate)) {
            unsafe.add(gate);
            reportUnsafe(gate, next);
          }
          next.or(gate.to);
          see(next, seen, open);
        }
      }
      if (seen.size() > MOST_SITUATIONS) {
        return;
      }
    }
    gates.stream()
        .filter(g -> !ever.contains(g) && within(g.from, reached))
        .forEach(this::reportDead);
  }

  private static void see(BitSet situation, Set<BitSet> seen, Deque<BitSet> open) {
    if (seen.add(situation)) {
      open.add(situation);
    }
  }

  private void reportUnsafe(Gate gate, BitSet others) {
    BitSet both = (BitSet) gate.to.clone();
    both.and(others);
    String step = sequence.name() + "." + sequence.steps().get(both.nextSetBit(0)).name();
    warn(
        Diagnostic.warning(
                Code.UNSAFE_CHART,
                gate.transition.to().get(0).position(),
                "this transition may enter `" + step + "` while that is active already")
            .help(
                "let branches that began together end in one transition from all their last"
                    + " steps"));
  }

  private void reportDead(Gate gate) {
    String names =
        String.join(", ", gate.transition.from().stream().map(n -> "`" + n.text() + "`").toList());
    warn(
        Diagnostic.warning(
                Code.DEAD_JOIN,
                gate.transition.from().get(0).position(),
                names + " are never active together")
            .help("steps of which only one is chosen need a transition each"));
  }
}
