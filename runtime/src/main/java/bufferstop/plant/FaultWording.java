package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Values;

/** Refuses what a fault says beyond what its mode takes. */
final class FaultWording {
  private static final long LONGEST = 60_000_000;

  private final Diagnostics problems;

  FaultWording(Diagnostics problems) {
    this.problems = problems;
  }

  /** Whether it gives no value, which its mode does not take. */
  boolean hasNoValue(Fault fault) {
    if (fault.value() == null) {
      return true;
    }
    problems.add(
        Diagnostic.error(
                Code.VALUE_NOT_WANTED, fault.value().whole(), quoted(fault) + " takes no `value`")
            .help("take `value` away"));
    return false;
  }

  /** Whether it gives no time, which its mode does not take. */
  boolean hasNoTime(Fault fault) {
    if (fault.micros() == 0) {
      return true;
    }
    problems.add(
        Diagnostic.error(
                Code.TIME_NOT_WANTED, fault.mode().position(), quoted(fault) + " takes no time")
            .help("take `by` or `every` away; `for` beside `fault` says how long it lasts"));
    return false;
  }

  /** Whether its time, if any, is short enough to be kept. */
  boolean isShortEnough(Fault fault) {
    if (fault.micros() <= LONGEST) {
      return true;
    }
    problems.add(
        Diagnostic.error(
                Code.OUT_OF_RANGE,
                fault.mode().position(),
                quoted(fault) + " with a time of " + Values.time(fault.micros()))
            .expected("at most " + Values.time(LONGEST)));
    return false;
  }

  private static String quoted(Fault fault) {
    return "`" + fault.mode().text() + "`";
  }
}
