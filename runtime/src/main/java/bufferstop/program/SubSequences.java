package bufferstop.program;

import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Step;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Which step runs which sequence. Source of the idea: the enclosing step of IEC 60848:2013 [from
 * memory, not re-read].
 */
final class SubSequences {

  /** The step, by number, that runs a sequence. */
  record Runner(Sequence sequence, int step) {
    private String text() {
      return sequence.name() + "." + sequence.steps().get(step).name();
    }
  }

  private final Controller controller;
  private final Map<String, Sequence> sequences = new TreeMap<>(); // in lower case
  private final Map<String, Runner> runners = new TreeMap<>(); // by what they run

  SubSequences(Controller controller) {
    this.controller = controller;
    for (Sequence sequence : controller.sequences()) {
      sequences.putIfAbsent(key(sequence.name()), sequence);
    }
    for (Sequence sequence : controller.sequences()) {
      for (int step = 0; step < sequence.steps().size(); step++) {
        Name runs = sequence.steps().get(step).runs();
        if (runs != null) {
          runners.putIfAbsent(key(runs.text()), new Runner(sequence, step));
        }
      }
    }
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  /** The step that runs a sequence; null when it begins by itself. */
  Runner runner(Sequence sequence) {
    return runners.get(key(sequence.name()));
  }

  /** Whether it can be held, by its own hold or that of one it is run by. */
  boolean canHold(Sequence sequence) {
    return lineage(sequence).stream().anyMatch(s -> s.hold() != null);
  }

  /** Itself, then what it is run by, up to one that begins by itself or comes again. */
  private List<Sequence> lineage(Sequence sequence) {
    List<Sequence> lineage = new ArrayList<>(List.of(sequence));
    Runner runner = runner(sequence);
    while (runner != null && !lineage.contains(runner.sequence)) {
      lineage.add(runner.sequence);
      runner = runner(runner.sequence);
    }
    return lineage;
  }

  /** Every sequence after the one that runs it, else in file order; those in loops are left out. */
  List<Sequence> outermostFirst() {
    List<Sequence> order = new ArrayList<>();
    controller.sequences().stream().filter(s -> runner(s) == null).forEach(s -> add(s, order));
    return order;
  }

  private void add(Sequence sequence, List<Sequence> order) {
    order.add(sequence);
    for (int step = 0; step < sequence.steps().size(); step++) {
      Name runs = sequence.steps().get(step).runs();
      Sequence inner = runs == null ? null : sequences.get(key(runs.text()));
      if (inner != null && runner(inner).equals(new Runner(sequence, step))) {
        add(inner, order);
      }
    }
  }

  /** Reports names that no sequence has, sequences run twice, and loops. */
  void check(Diagnostics problems) {
    for (Sequence sequence : controller.sequences()) {
      for (int step = 0; step < sequence.steps().size(); step++) {
        if (sequence.steps().get(step).runs() != null) {
          checkRun(new Runner(sequence, step), problems);
        }
      }
    }
    List<Sequence> told = new ArrayList<>();
    for (Sequence sequence : controller.sequences()) {
      List<Sequence> lineage = lineage(sequence);
      Runner top = runner(lineage.get(lineage.size() - 1));
      if (top != null && top.sequence == sequence && !told.contains(sequence)) {
        told.addAll(lineage);
        problems.add(loop(sequence, lineage));
      }
    }
  }

  private void checkRun(Runner runner, Diagnostics problems) {
    Name runs = runner.sequence.steps().get(runner.step).runs();
    Runner first = runners.get(key(runs.text()));
    if (!sequences.containsKey(key(runs.text()))) {
      List<String> known = controller.sequences().stream().map(Sequence::name).toList();
      if (!problems.doubts(runs.text())) {
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME, runs.position(), "no sequence named `" + runs.text() + "`")
                .expected("the name of a sequence")
                .help(NearNames.question(runs.text(), known)));
      }
    } else if (!first.equals(runner)) {
      Step step = first.sequence.steps().get(first.step);
      problems.add(
          Diagnostic.error(
                  Code.TWO_WRITERS, runs.position(), "`" + runs.text() + "` is run by two steps")
              .note(step.runs().position(), "`" + first.text() + "` runs it too")
              .help("declare the sequence once for each step that runs it"));
    }
  }

  private Diagnostic loop(Sequence sequence, List<Sequence> lineage) {
    List<String> steps = new ArrayList<>(List.of("`" + sequence.name() + "`"));
    for (Sequence inner : lineage) {
      steps.add(0, "`" + runner(inner).text() + "`");
    }
    Runner runner = runner(sequence);
    return Diagnostic.error(
            Code.RECURSION,
            runner.sequence.steps().get(runner.step).runs().position(),
            "`" + sequence.name() + "` runs itself: " + String.join(" runs ", steps))
        .help("take one `run` of this loop away");
  }
}
