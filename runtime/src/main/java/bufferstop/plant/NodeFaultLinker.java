package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.NearNames;
import java.util.List;
import java.util.Locale;

/** Makes a fault of a node's link ready to begin. */
final class NodeFaultLinker {
  private static final long DEFAULT_LATE = 100_000;
  private static final List<String> MODES = List.of("lost", "late");

  private final Diagnostics problems;
  private final FaultWording wording;

  NodeFaultLinker(Diagnostics problems) {
    this.problems = problems;
    wording = new FaultWording(problems);
  }

  /** The fault ready to begin; null after a diagnostic. */
  Switch link(NodeRun node, Fault fault, long stepMicros) {
    String mode = fault.mode().text().toLowerCase(Locale.ROOT);
    if (!MODES.contains(mode)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_FAULT,
                  fault.mode().position(),
                  "no node fault called `" + fault.mode().text() + "`")
              .expected(String.join(", ", MODES))
              .help(NearNames.question(mode, MODES)));
      return null;
    }
    boolean late = mode.equals("late");
    boolean fits = late ? wording.isShortEnough(fault) : wording.hasNoTime(fault);
    if (!wording.hasNoValue(fault) || !fits) {
      return null;
    }
    int cycles = node.cycles(fault.micros() == 0 ? DEFAULT_LATE : fault.micros(), stepMicros);
    return late ? cells -> node.delay(cycles, fault) : cells -> node.cut(fault);
  }
}
