package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.NearNames;
import bufferstop.model.Type;
import bufferstop.plant.WireFaultMode.Needs;
import bufferstop.st.ExpressionReader;
import java.util.List;

/** Checks a fault against the wire it is set on and makes it ready to begin. */
final class WireFaultLinker {
  private final Diagnostics problems;
  private final FaultWording wording;

  WireFaultLinker(Diagnostics problems) {
    this.problems = problems;
    wording = new FaultWording(problems);
  }

  /** The fault ready to begin; null after a diagnostic. */
  Switch link(WireRun wire, Fault fault, long stepMicros) {
    WireFaultMode mode = WireFaultMode.named(fault.mode().text());
    if (mode == null || !mode.fits(wire.isBool())) {
      List<String> fitting = WireFaultMode.words(wire.isBool());
      problems.add(
          Diagnostic.error(Code.BAD_FAULT, fault.mode().position(), misfit(wire, mode, fault))
              .expected(String.join(", ", fitting))
              .help(mode == null ? NearNames.question(fault.mode().text(), fitting) : ""));
      return null;
    }
    Double value = value(wire, mode, fault);
    boolean timeFits =
        mode.needs() == Needs.TIME ? wording.isShortEnough(fault) : wording.hasNoTime(fault);
    if (value == null || !timeFits) {
      return null;
    }
    WireFault effect =
        mode.make(new WireFaultMode.Parameters(value, fault.micros(), stepMicros, wire.random()));
    return cells -> wire.begin(effect, fault);
  }

  private static String misfit(WireRun wire, WireFaultMode mode, Fault fault) {
    return mode == null
        ? "no wire fault called `" + fault.mode().text() + "`"
        : "`%s` does not fit wire `%s`, which carries %s"
            .formatted(mode.word(), wire.name(), wire.isBool() ? "a BOOL" : "a quantity");
  }

  /** The fault's value, NaN when it has none; null after a diagnostic. */
  private Double value(WireRun wire, WireFaultMode mode, Fault fault) {
    boolean takes = mode.needs() != Needs.NOTHING && mode.needs() != Needs.TIME;
    if (fault.value() == null) {
      if (mode.needs() != Needs.VALUE) {
        return Double.NaN;
      }
      problems.add(
          Diagnostic.error(
                  Code.VALUE_NOT_WANTED,
                  fault.mode().position(),
                  "`" + mode.word() + "` does not say how much")
              .expected("`value:` with a number"));
      return null;
    }
    if (!takes) {
      wording.hasNoValue(fault);
      return null;
    }
    boolean bool = mode.needs() == Needs.MAY_HAVE_VALUE && wire.isBool();
    Long bits = ExpressionReader.literal(fault.value(), bool ? Type.BOOL : Type.LREAL, problems);
    Double value = bits == null ? null : bool ? bits : Double.longBitsToDouble(bits);
    if (value != null && mode.needs() == Needs.CHANCE && (value < 0 || value > 1)) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE, fault.value().whole(), "a chance of " + fault.value().value())
              .expected("from 0 to 1"));
      return null;
    }
    return value;
  }
}
