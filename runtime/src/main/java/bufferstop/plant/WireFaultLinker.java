package bufferstop.plant;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.plant.WireFaultMode.Needs;
import bufferstop.st.ExpressionReader;

/** Checks a fault against the wire it is set on and makes it ready to begin. */
final class WireFaultLinker {
  private static final long LONGEST_DELAY = 60_000_000;

  private final Diagnostics problems;

  WireFaultLinker(Diagnostics problems) {
    this.problems = problems;
  }

  /** The fault ready to begin; null after a diagnostic. */
  Switch link(WireRun wire, Fault fault, long stepMicros) {
    WireFaultMode mode = WireFaultMode.named(fault.mode().text());
    if (mode == null || !mode.fits(wire.isBool())) {
      String carries = wire.isBool() ? "a BOOL" : "a quantity";
      String what =
          mode == null
              ? "no wire fault called `" + fault.mode().text() + "`"
              : "`"
                  + mode.word()
                  + "` does not fit wire `"
                  + wire.name()
                  + "`, which carries "
                  + carries;
      problems.add(
          Diagnostic.error(fault.mode().position(), what)
              .expected(String.join(", ", WireFaultMode.words(wire.isBool())))
              .help(WireFaultMode.question(fault.mode().text(), wire.isBool())));
      return null;
    }
    Double value = value(wire, mode, fault);
    if (value == null || !timeFits(mode, fault)) {
      return null;
    }
    WireFault effect =
        mode.make(new WireFaultMode.Parameters(value, fault.micros(), stepMicros, wire.random()));
    return cells -> wire.begin(effect, fault);
  }

  /** The fault's value, NaN when it has none; null after a diagnostic. */
  private Double value(WireRun wire, WireFaultMode mode, Fault fault) {
    boolean takes = mode.needs() != Needs.NOTHING && mode.needs() != Needs.TIME;
    if (fault.value() == null) {
      if (mode.needs() != Needs.VALUE) {
        return Double.NaN;
      }
      problems.add(
          Diagnostic.error(fault.mode().position(), "`" + mode.word() + "` does not say how much")
              .expected("`value:` with a number"));
      return null;
    }
    if (!takes) {
      problems.add(
          Diagnostic.error(fault.value().whole(), "`" + mode.word() + "` takes no value")
              .help("take `value` away"));
      return null;
    }
    boolean bool = mode.needs() == Needs.MAY_HAVE_VALUE && wire.isBool();
    Long bits = ExpressionReader.literal(fault.value(), bool ? Type.BOOL : Type.LREAL, problems);
    Double value = bits == null ? null : bool ? bits : Double.longBitsToDouble(bits);
    if (value != null && mode.needs() == Needs.CHANCE && (value < 0 || value > 1)) {
      problems.add(
          Diagnostic.error(fault.value().whole(), "a chance of " + Values.number(value))
              .expected("from 0 to 1"));
      return null;
    }
    return value;
  }

  private boolean timeFits(WireFaultMode mode, Fault fault) {
    if (fault.micros() > LONGEST_DELAY) {
      problems.add(
          Diagnostic.error(
                  fault.mode().position(),
                  "a " + mode.word() + " of " + Values.time(fault.micros()))
              .expected("at most " + Values.time(LONGEST_DELAY)));
      return false;
    }
    if (fault.micros() > 0 && mode.needs() != Needs.TIME) {
      problems.add(
          Diagnostic.error(fault.mode().position(), "`" + mode.word() + "` takes no time")
              .help("take `by` or `every` away; `for` beside `fault` says how long it lasts"));
      return false;
    }
    return true;
  }
}
