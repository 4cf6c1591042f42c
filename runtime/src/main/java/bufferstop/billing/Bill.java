package bufferstop.billing;

import bufferstop.model.Tariff;
import bufferstop.model.Tariff.Demand;
import bufferstop.model.Tariff.PowerFactor;
import bufferstop.model.Tariff.Reactive;
import bufferstop.model.Tariff.Rounding;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/**
 * One consumer's bill. Source of the lines: line = round(quantity x price), bill = sum of lines +
 * round(tax x sum of lines) [project choice: utilities differ; a tariff says which].
 *
 * @param lines in the order of the tariffs
 * @param subtotal sum of the lines
 * @param total with tax
 */
public record Bill(
    Usage usage,
    String currency,
    List<Line> lines,
    BigDecimal subtotal,
    List<Line> taxes,
    BigDecimal total) {

  private static final BigDecimal HUNDRED = new BigDecimal(100);
  private static final long HOUR_MICROS = 3_600_000_000L;
  private static final int FACTOR_DECIMALS = 4;
  private static final int KILO = 3; // decimals of kWh, kvarh, kVAh
  private static final int SHARE_DECIMALS = 12;

  /**
   * One line.
   *
   * @param tariff it belongs to
   * @param what it is for
   * @param quantity in {@code unit}
   * @param price of a unit
   * @param exact before rounding
   * @param amount as it counts
   * @param how where the quantity comes from, as arithmetic; may be empty
   */
  public record Line(
      Tariff tariff,
      String what,
      BigDecimal quantity,
      String unit,
      BigDecimal price,
      BigDecimal exact,
      BigDecimal amount,
      String how) {}

  /** Works out the bill for what was counted. */
  public static Bill of(Usage usage) {
    List<Line> lines = new ArrayList<>();
    List<Line> taxes = new ArrayList<>();
    for (Usage.Part part : usage.parts()) {
      List<Line> own = new Writer(part, usage.days()).lines();
      lines.addAll(own);
      if (part.tariff().tax() != null) {
        taxes.add(tax(part.tariff(), sum(own)));
      }
    }
    BigDecimal total = sum(lines).add(sum(taxes));
    if (usage.parts().isEmpty()) {
      return new Bill(usage, "", lines, total, taxes, total);
    }
    Tariff last = usage.parts().get(usage.parts().size() - 1).tariff();
    Rounding rounding = last.rounding();
    BigDecimal rounded = total.setScale(rounding.decimals(), rounding.mode());
    return new Bill(
        usage, last.currency(), List.copyOf(lines), sum(lines), List.copyOf(taxes), rounded);
  }

  private static BigDecimal sum(List<Line> lines) {
    return lines.stream().map(Line::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static Line tax(Tariff tariff, BigDecimal on) {
    BigDecimal percent = tariff.tax().percent();
    BigDecimal exact = on.multiply(percent).divide(HUNDRED);
    return new Line(
        tariff, tariff.tax().name(), percent, "%", on, exact, rounded(tariff, exact), "");
  }

  private static BigDecimal rounded(Tariff tariff, BigDecimal exact) {
    Rounding rounding = tariff.rounding();
    return rounding.eachLine() ? exact.setScale(rounding.decimals(), rounding.mode()) : exact;
  }

  /** The period's mean power factor, 1 without energy; four decimals. */
  static BigDecimal factor(Usage.Part part, boolean ofDistortionToo) {
    BigDecimal active = new BigDecimal(part.imported());
    BigDecimal reactive = new BigDecimal(part.reactive());
    BigDecimal apparent =
        ofDistortionToo
            ? new BigDecimal(part.apparent())
            : active.pow(2).add(reactive.pow(2)).sqrt(MathContext.DECIMAL64);
    return apparent.signum() == 0
        ? BigDecimal.ONE.setScale(FACTOR_DECIMALS)
        : active.divide(apparent, FACTOR_DECIMALS, RoundingMode.HALF_UP);
  }

  /** The lines of one tariff. */
  private static final class Writer {
    private final Usage.Part part;
    private final Tariff tariff;
    private final long allDays;
    private final List<Line> lines = new ArrayList<>();

    Writer(Usage.Part part, long allDays) {
      this.part = part;
      this.allDays = allDays;
      tariff = part.tariff();
    }

    private List<Line> lines() {
      for (int i = 0; i < tariff.rates().size(); i++) {
        Tariff.Rate rate = tariff.rates().get(i);
        add(rate.name(), kilo(part.wattHours().get(i)), "kWh", rate.price(), "");
      }
      if (tariff.standing().signum() > 0) {
        BigDecimal days = new BigDecimal(part.days());
        add("standing charge", days, "d", tariff.standing(), "");
      }
      if (tariff.demand() != null) {
        demand(tariff.demand());
      }
      if (tariff.reactive() != null) {
        reactive(tariff.reactive());
      }
      if (tariff.powerFactor() != null) {
        powerFactor(tariff.powerFactor());
      }
      return lines;
    }

    private void add(String what, BigDecimal quantity, String unit, BigDecimal price, String how) {
      BigDecimal exact = quantity.multiply(price);
      lines.add(new Line(tariff, what, quantity, unit, price, exact, rounded(tariff, exact), how));
    }

    private static BigDecimal kilo(long units) {
      return BigDecimal.valueOf(units, KILO);
    }

    /** Charged for the whole period once: of several tariffs each by its share of the days. */
    private void demand(Demand demand) {
      Usage.Peak most = part.demand();
      if (most == null) {
        add("demand", kilo(0), "kW", demand.price(), "no whole interval was metered");
        return;
      }
      BigDecimal perHour = BigDecimal.valueOf(HOUR_MICROS / most.intervalMicros());
      boolean whole = HOUR_MICROS % most.intervalMicros() == 0;
      BigDecimal energy = kilo(most.wattHours());
      BigDecimal power =
          whole
              ? energy.multiply(perHour)
              : energy
                  .multiply(BigDecimal.valueOf(HOUR_MICROS))
                  .divide(BigDecimal.valueOf(most.intervalMicros()), KILO, RoundingMode.HALF_UP);
      long minutes = most.intervalMicros() / 60_000_000;
      String how =
          energy.toPlainString()
              + " kWh in the "
              + minutes
              + " min up to "
              + Moments.text(most.end());
      how += part.flawed() == 0 ? "" : "; not counted, power failed: " + part.flawed();
      if (part.days() != allDays) {
        power =
            power
                .multiply(BigDecimal.valueOf(part.days()))
                .divide(BigDecimal.valueOf(allDays), SHARE_DECIMALS, RoundingMode.HALF_UP);
        how += "; " + part.days() + " of " + allDays + " days";
      }
      add("demand", power, "kW", demand.price(), how);
    }

    private void reactive(Reactive charge) {
      BigDecimal active = kilo(part.imported());
      BigDecimal taken = kilo(part.reactive());
      BigDecimal free = active.multiply(charge.free());
      BigDecimal excess = taken.subtract(free).max(BigDecimal.ZERO);
      String how =
          "%s kvarh - %s x %s kWh"
              .formatted(
                  taken.toPlainString(), charge.free().toPlainString(), active.toPlainString());
      add("reactive energy", excess, "kvarh", charge.price(), how);
    }

    private void powerFactor(PowerFactor charge) {
      BigDecimal factor = factor(part, charge.ofDistortionToo());
      BigDecimal lacking = charge.least().subtract(factor).max(BigDecimal.ZERO);
      BigDecimal steps = lacking.divideToIntegralValue(charge.step()).setScale(0);
      BigDecimal base =
          lines.stream()
              .filter(l -> l.unit().equals("kWh") || l.unit().equals("kW"))
              .map(Line::amount)
              .reduce(BigDecimal.ZERO, BigDecimal::add);
      String of =
          charge.ofDistortionToo()
              ? kilo(part.imported()).toPlainString()
                  + " kWh / "
                  + kilo(part.apparent()).toPlainString()
                  + " kVAh"
              : kilo(part.imported()).toPlainString()
                  + " kWh with "
                  + kilo(part.reactive()).toPlainString()
                  + " kvarh";
      String kind = charge.ofDistortionToo() ? "true" : "displacement";
      String how =
          "%s power factor %s = %s, %s full steps of %s below %s; of %s"
              .formatted(
                  kind,
                  of,
                  factor.toPlainString(),
                  steps.toPlainString(),
                  charge.step().toPlainString(),
                  charge.least().toPlainString(),
                  base.toPlainString());
      BigDecimal price = base.multiply(charge.percent()).divide(HUNDRED);
      add("power factor", steps, "steps", price, how);
    }
  }
}
