package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Symbol;
import bufferstop.st.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Collects the actions of a sequence by target. */
final class ActionLinker {
  private record Request(int step, Action action) {}

  private final Sequence sequence;
  private final Owners owners;
  private final Diagnostics problems;

  ActionLinker(Sequence sequence, Owners owners, Diagnostics problems) {
    this.sequence = sequence;
    this.owners = owners;
    this.problems = problems;
  }

  /** One statement a target. */
  List<Statement> statements(SequenceCode code, Layout layout) {
    Map<Integer, Symbol> targets = new TreeMap<>();
    Map<Integer, List<Request>> byTarget = new TreeMap<>();
    for (int step = 0; step < sequence.steps().size(); step++) {
      for (Action action : sequence.steps().get(step).actions()) {
        Symbol target = owners.actionTarget(action.target(), sequence.name());
        if (target != null) {
          targets.put(target.index(), target);
          byTarget
              .computeIfAbsent(target.index(), t -> new ArrayList<>())
              .add(new Request(step, action));
        }
      }
    }
    List<Statement> all = new ArrayList<>();
    byTarget.forEach(
        (index, asking) -> {
          refuseContention(asking);
          all.add(new ActionCode(targets.get(index), requests(asking), code, layout).statement());
        });
    return all;
  }

  private static List<ActionCode.Request> requests(List<Request> asking) {
    return asking.stream()
        .map(r -> new ActionCode.Request(r.action.qualifier(), r.step, r.action.micros()))
        .toList();
  }

  /**
   * Two requests with a time that are active at once are an error of the standard (action control
   * contention); since SD, DS and SL outlast their steps, two are refused wherever they stand
   * [project choice].
   */
  private void refuseContention(List<Request> all) {
    List<Request> timed = all.stream().filter(r -> r.action.qualifier().isTimed()).toList();
    for (Request second : timed.subList(Math.min(1, timed.size()), timed.size())) {
      Action action = second.action;
      problems.add(
          Diagnostic.error(
                  action.target().position(),
                  "a second action with a time on `" + action.target().text() + "`")
              .expected("one action with L, D, SD, DS or SL on a point")
              .note(timed.get(0).action.target().position(), "the first one")
              .help("let each act on an internal point of its own and join them in the logic"));
    }
  }
}
