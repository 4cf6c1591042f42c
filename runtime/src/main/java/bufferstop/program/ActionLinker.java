package bufferstop.program;

import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Qualifier;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
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

  ActionTarget[] targets() {
    Map<Integer, List<Request>> byTarget = new TreeMap<>();
    for (int step = 0; step < sequence.steps().size(); step++) {
      for (Action action : sequence.steps().get(step).actions()) {
        int target = owners.actionTarget(action.target(), sequence.name());
        if (target >= 0) {
          byTarget.computeIfAbsent(target, t -> new ArrayList<>()).add(new Request(step, action));
        }
      }
    }
    return byTarget.entrySet().stream()
        .map(e -> new ActionTarget(e.getKey(), requests(e.getValue())))
        .toArray(ActionTarget[]::new);
  }

  private ActionTarget.Requests requests(List<Request> all) {
    return new ActionTarget.Requests(
        steps(all, Qualifier.N),
        steps(all, Qualifier.S),
        steps(all, Qualifier.R),
        steps(all, Qualifier.P),
        timed(all));
  }

  private static int[] steps(List<Request> all, Qualifier qualifier) {
    return all.stream()
        .filter(r -> r.action.qualifier() == qualifier)
        .mapToInt(Request::step)
        .toArray();
  }

  /**
   * The one request with a time. Two that are active at once are an error of the standard (action
   * control contention); since SD, DS and SL outlast their steps, two are refused wherever they
   * stand [project choice].
   */
  private TimedAction timed(List<Request> all) {
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
    if (timed.isEmpty()) {
      return null;
    }
    Request only = timed.get(0);
    return new TimedAction(only.action.qualifier(), only.step, only.action.micros());
  }
}
