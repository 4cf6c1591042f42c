package bufferstop.modbus;

import static bufferstop.model.SunSpecMeter.Quantity.A;
import static bufferstop.model.SunSpecMeter.Quantity.HZ;
import static bufferstop.model.SunSpecMeter.Quantity.PF;
import static bufferstop.model.SunSpecMeter.Quantity.TOTVAH;
import static bufferstop.model.SunSpecMeter.Quantity.TOTVARH;
import static bufferstop.model.SunSpecMeter.Quantity.TOTWH;
import static bufferstop.model.SunSpecMeter.Quantity.V;
import static bufferstop.model.SunSpecMeter.Quantity.VA;
import static bufferstop.model.SunSpecMeter.Quantity.VAR;
import static bufferstop.model.SunSpecMeter.Quantity.W;

import bufferstop.model.SunSpecMeter;
import bufferstop.model.SunSpecMeter.Quantity;
import java.util.List;

/**
 * One measured point of the SunSpec meter models, in their order. The models in whole numbers (201,
 * 203) and those in floating point (211, 213) hold the same points; in the former the scale point
 * of a quantity follows its last point.
 *
 * <p>Source: the Alliance's model definitions 201, 203, 211 and 213 [re-read]. Signs are not in
 * them: import is positive [project choice].
 *
 * @param single the meter's value a single-phase meter shows here, or empty: not implemented
 * @param three the same of a three-phase meter
 * @param mandatory which of them must show it
 */
record SunSpecPoint(
    String name, Quantity quantity, String single, String three, Mandatory mandatory) {

  /** Who must show a point. */
  enum Mandatory {
    NOBODY,
    THREE_PHASE,
    ALL
  }

  static final List<SunSpecPoint> ALL =
      List.of(
          of("A", A, "amperes", "amperes", Mandatory.ALL),
          of("AphA", A, "amperes", "amperes_a", Mandatory.ALL),
          of("AphB", A, "", "amperes_b", Mandatory.THREE_PHASE),
          of("AphC", A, "", "amperes_c", Mandatory.THREE_PHASE),
          of("PhV", V, "volts", "volts", Mandatory.THREE_PHASE),
          of("PhVphA", V, "volts", "volts_a", Mandatory.THREE_PHASE),
          of("PhVphB", V, "", "volts_b", Mandatory.THREE_PHASE),
          of("PhVphC", V, "", "volts_c", Mandatory.THREE_PHASE),
          of("PPV", V, "", "volts_line", Mandatory.THREE_PHASE),
          of("PPVphAB", V, "", "volts_ab", Mandatory.THREE_PHASE),
          of("PPVphBC", V, "", "volts_bc", Mandatory.THREE_PHASE),
          of("PPVphCA", V, "", "volts_ca", Mandatory.THREE_PHASE),
          of("Hz", HZ, "hertz", "hertz", Mandatory.ALL),
          of("W", W, "watts", "watts", Mandatory.ALL),
          of("WphA", W, "watts", ""),
          of("WphB", W, "", ""),
          of("WphC", W, "", ""),
          of("VA", VA, "apparent", "apparent"),
          of("VAphA", VA, "apparent", ""),
          of("VAphB", VA, "", ""),
          of("VAphC", VA, "", ""),
          of("VAR", VAR, "vars", "vars"),
          of("VARphA", VAR, "vars", ""),
          of("VARphB", VAR, "", ""),
          of("VARphC", VAR, "", ""),
          of("PF", PF, "power_factor", "power_factor"),
          of("PFphA", PF, "power_factor", ""),
          of("PFphB", PF, "", ""),
          of("PFphC", PF, "", ""),
          of("TotWhExp", TOTWH, "exported", "exported", Mandatory.ALL),
          of("TotWhExpPhA", TOTWH, "exported", ""),
          of("TotWhExpPhB", TOTWH, "", ""),
          of("TotWhExpPhC", TOTWH, "", ""),
          of("TotWhImp", TOTWH, "imported", "imported", Mandatory.ALL),
          of("TotWhImpPhA", TOTWH, "imported", ""),
          of("TotWhImpPhB", TOTWH, "", ""),
          of("TotWhImpPhC", TOTWH, "", ""),
          of("TotVAhExp", TOTVAH, "apparent_exported", "apparent_exported"),
          of("TotVAhExpPhA", TOTVAH, "apparent_exported", ""),
          of("TotVAhExpPhB", TOTVAH, "", ""),
          of("TotVAhExpPhC", TOTVAH, "", ""),
          of("TotVAhImp", TOTVAH, "apparent_imported", "apparent_imported"),
          of("TotVAhImpPhA", TOTVAH, "apparent_imported", ""),
          of("TotVAhImpPhB", TOTVAH, "", ""),
          of("TotVAhImpPhC", TOTVAH, "", ""),
          of("TotVArhImpQ1", TOTVARH, "reactive_1", "reactive_1"),
          of("TotVArhImpQ1PhA", TOTVARH, "reactive_1", ""),
          of("TotVArhImpQ1PhB", TOTVARH, "", ""),
          of("TotVArhImpQ1PhC", TOTVARH, "", ""),
          of("TotVArhImpQ2", TOTVARH, "reactive_2", "reactive_2"),
          of("TotVArhImpQ2PhA", TOTVARH, "reactive_2", ""),
          of("TotVArhImpQ2PhB", TOTVARH, "", ""),
          of("TotVArhImpQ2PhC", TOTVARH, "", ""),
          of("TotVArhExpQ3", TOTVARH, "reactive_3", "reactive_3"),
          of("TotVArhExpQ3PhA", TOTVARH, "reactive_3", ""),
          of("TotVArhExpQ3PhB", TOTVARH, "", ""),
          of("TotVArhExpQ3PhC", TOTVARH, "", ""),
          of("TotVArhExpQ4", TOTVARH, "reactive_4", "reactive_4"),
          of("TotVArhExpQ4PhA", TOTVARH, "reactive_4", ""),
          of("TotVArhExpQ4PhB", TOTVARH, "", ""),
          of("TotVArhExpQ4PhC", TOTVARH, "", ""));

  private static SunSpecPoint of(String name, Quantity q, String single, String three) {
    return of(name, q, single, three, Mandatory.NOBODY);
  }

  private static SunSpecPoint of(
      String name, Quantity q, String single, String three, Mandatory mandatory) {
    return new SunSpecPoint(name, q, single, three, mandatory);
  }

  /** The meter's value that such a meter shows here; empty for none. */
  String value(SunSpecMeter meter) {
    return meter.threePhase() ? three : single;
  }

  boolean isMandatory(SunSpecMeter meter) {
    return mandatory == Mandatory.ALL || mandatory == Mandatory.THREE_PHASE && meter.threePhase();
  }

  /** Counts up for ever, in two registers also in whole numbers. */
  boolean isAccumulator() {
    return quantity == TOTWH || quantity == TOTVAH || quantity == TOTVARH;
  }
}
