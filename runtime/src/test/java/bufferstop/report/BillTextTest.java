package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.billing.Balance;
import bufferstop.billing.Bill;
import bufferstop.billing.Usage;
import bufferstop.model.Billing.Consumer;
import bufferstop.model.Billing.Period;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Tariff;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A worked bill as people and tables see it; its amounts were worked out by hand [computed]. */
class BillTextTest {
  private static final Position HERE = Position.ofFile("test");

  private static Bill bill() {
    Tariff tariff =
        new Tariff(
            "Settlement, winter",
            "crowns",
            LocalDate.of(2026, 1, 1),
            LocalDate.MAX,
            new BigDecimal("0.4250"),
            List.of(
                new Tariff.Rate("off_peak", new BigDecimal("0.1125")),
                new Tariff.Rate("peak", new BigDecimal("0.3475"))),
            List.of(),
            null,
            new Tariff.Reactive(new BigDecimal("0.0120"), new BigDecimal("0.5")),
            null,
            new Tariff.Tax("tax", new BigDecimal("5")),
            new Tariff.Rounding(2, RoundingMode.HALF_UP, true),
            HERE);
    Usage.Part part =
        new Usage.Part(tariff, 30, List.of(412_600L, 121_400L), 0, 300_000, 600_000, null, 0);
    return Bill.of(
        new Usage(
            new Consumer("cottages", "by the yard", new Name("m", HERE), List.of(tariff)),
            new Period(
                "april",
                LocalDateTime.of(2026, 4, 1, 0, 0),
                LocalDateTime.of(2026, 5, 1, 0, 0),
                HERE),
            List.of(part)));
  }

  @Test
  void aBillShowsTheArithmeticOfEveryLine() {
    assertEquals(
        """
        Bill for cottages, by the yard
        period    2026-04-01 00:00 to 2026-05-01 00:00, local time without daylight saving
        tariff    Settlement, winter, 30 d
        metered   534.000 kWh, 300.000 kvarh, 600.000 kVAh, exported 0.000 kWh

        off_peak          412.600 kWh x 0.1125 = 46.4175000                      46.42
        peak              121.400 kWh x 0.3475 = 42.1865000                      42.19
        standing charge   30 d x 0.4250 = 12.7500                                12.75
        reactive energy   33.0000 kvarh x 0.0120 = 0.39600000                     0.40
            300.000 kvarh - 0.5 x 534.000 kWh
        subtotal                                                                101.76
        tax               5 % of 101.76 = 5.088                                   5.09
        total                                                                   106.85 crowns
        """,
        BillText.text(bill()));
  }

  @Test
  void aTableHoldsTheSameLines() {
    List<String> rows = BillText.csv(bill()).lines().toList();
    assertEquals(7, rows.size());
    assertEquals(
        "cottages,2026-04-01 00:00,2026-05-01 00:00,\"Settlement, winter\",off_peak,412.600,kWh,"
            + "0.1125,46.4175000,46.42,",
        rows.get(1));
    assertEquals(
        "cottages,2026-04-01 00:00,2026-05-01 00:00,,total,,crowns,,,106.85,", rows.get(6));
  }

  @Test
  void aBalanceEndsWithItsWarnings() {
    Balance balance =
        Balance.of(10_000, 300, List.of(new Balance.Metered("a", 0, 4_850, true)), BigDecimal.ONE);
    assertEquals(
        """
        Energy balance, kWh
        supplied                                                  10.000
        - a, exported 4.850                                       -4.850
        - lost in the network                                      0.300
        = difference                                              14.550
        tolerance 0.100 kWh: the balance does not close
        warning: `a` counts 4.850 kWh as exported
        warning: the balance is off by 14.550 kWh, more than 0.100 kWh: something is not metered, or a meter counts wrongly
        """,
        BillText.text(balance));
  }
}
