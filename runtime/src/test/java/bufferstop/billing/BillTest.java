package bufferstop.billing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Tariff;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDateTime;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Bills against worked examples: those of a settlement and of a traction supply were worked out by
 * hand apart from this code [computed]; the rule of rounding is a [project choice].
 */
class BillTest {
  private static final LocalDateTime NOON = LocalDateTime.of(2026, 3, 10, 12, 0);

  private static Tariffs settlement() {
    return new Tariffs()
        .rate("off_peak", "0.1125")
        .rate("shoulder", "0.1980")
        .rate("peak", "0.3475")
        .standing("0.4250")
        .tax("5");
  }

  private static Bill settlementBill(Tariffs tariff) {
    return Bill.of(Tariffs.usage(tariff.make(), 30, 0, 0, 412_600L, 386_250L, 121_400L));
  }

  private static List<String> amounts(Bill bill) {
    return bill.lines().stream()
        .map(
            l -> l.what() + " " + l.exact().stripTrailingZeros().toPlainString() + " " + l.amount())
        .toList();
  }

  /** Example 1, 30 days: each line rounded half up. */
  @Test
  void theSettlementsBillLineByLine() {
    Bill bill = settlementBill(settlement());
    assertEquals(
        List.of(
            "off_peak 46.4175 46.42",
            "shoulder 76.4775 76.48",
            "peak 42.1865 42.19",
            "standing charge 12.75 12.75"),
        amounts(bill));
    assertEquals("177.84", bill.subtotal().toPlainString());
    assertEquals("8.89", bill.taxes().get(0).amount().toPlainString());
    assertEquals("186.73", bill.total().toPlainString());
  }

  /** Example 1, only the total rounded: 177.8315, 8.891575, 186.723075. */
  @Test
  void roundedOnlyInTotalItIsACentLess() {
    Bill bill = settlementBill(settlement().rounding(2, RoundingMode.HALF_UP, false));
    assertEquals(0, new BigDecimal("177.8315").compareTo(bill.subtotal()));
    assertEquals(0, new BigDecimal("8.891575").compareTo(bill.taxes().get(0).amount()));
    assertEquals("186.72", bill.total().toPlainString());
  }

  /** Example 2: off-peak, peak, demand, reactive energy beyond half the active. */
  @Test
  void theTractionSupplysBillLineByLine() {
    Tariff tariff =
        new Tariffs()
            .rate("off_peak", "0.0890")
            .rate("peak", "0.1620")
            .demand("9.40", 15, 1)
            .reactive("0.0120", "0.5")
            .make();
    Usage.Peak peak = new Usage.Peak(71_325, 900_000_000L, NOON); // 285.3 kW for 15 min
    Usage usage =
        Tariffs.usage(
            new Usage.Part(
                tariff, 30, List.of(18_450_000L, 9_620_000L), 0, 16_840_000, 0, peak, 0));
    Bill bill = Bill.of(usage);
    assertEquals(
        List.of(
            "off_peak 1642.05 1642.05",
            "peak 1558.44 1558.44",
            "demand 2681.82 2681.82",
            "reactive energy 33.66 33.66"),
        amounts(bill));
    assertEquals("5915.97", bill.total().toPlainString());
    // average power factor 28 070 / sqrt(28 070^2 + 16 840^2) = 0.857520
    assertEquals("0.8575", Bill.factor(usage.parts().get(0), false).toPlainString());
  }

  @ParameterizedTest(name = "{0} decimals, {1}: {2}")
  @CsvSource({
    "2, HALF_UP, 0.13", // 1 kWh at 0.125
    "2, HALF_EVEN, 0.12",
    "3, HALF_UP, 0.125",
    "0, HALF_UP, 0",
    "1, HALF_UP, 0.1"
  })
  void aTieGoesWhereTheTariffSays(int decimals, RoundingMode mode, String amount) {
    Tariffs tariff = new Tariffs().rate("all", "0.125").rounding(decimals, mode, true);
    Bill bill = Bill.of(Tariffs.usage(tariff.make(), 1, 0, 0, 1000L));
    assertEquals(amount, bill.lines().get(0).amount().toPlainString());
    assertEquals(amount, bill.total().toPlainString());
  }

  @Test
  void binaryFractionsNeverComeIn() {
    // 0.1 + 0.2 and 3 x 0.1 are no exact binary numbers
    Tariff tariff =
        new Tariffs()
            .rate("a", "0.1")
            .rate("b", "0.2")
            .rounding(6, RoundingMode.HALF_UP, false)
            .make();
    assertEquals(
        "0.300000", Bill.of(Tariffs.usage(tariff, 1, 0, 0, 1000L, 1000L)).total().toPlainString());
    // 4 999 999.999 kWh at 999 999.999999 needs 22 digits
    Tariff dear = new Tariffs().rate("a", "999999.999999").make();
    Bill bill = Bill.of(Tariffs.usage(dear, 1, 0, 0, 4_999_999_999L));
    assertEquals("4999999998995.000000001", bill.lines().get(0).exact().toPlainString());
  }

  @ParameterizedTest(name = "power factor {1} below {0} in steps of {2}: {3} steps")
  @CsvSource({
    "0.95, 0.9500, 0.01, 0",
    "0.95, 0.9401, 0.01, 0",
    "0.95, 0.9400, 0.01, 1",
    "0.95, 0.8804, 0.01, 6",
    "0.95, 0.9900, 0.01, 0",
    "0.90, 0.5000, 0.05, 8"
  })
  void onlyFullStepsOfPowerFactorAreCharged(
      String least, String factor, String step, String steps) {
    Tariff tariff = new Tariffs().rate("all", "1").factor(true, least, "2", step).make();
    long active = new BigDecimal(factor).movePointRight(7).longValue();
    Bill bill = Bill.of(Tariffs.usage(tariff, 1, 0, 10_000_000, active));
    Bill.Line line = bill.lines().get(1);
    assertEquals(steps, line.quantity().toPlainString());
    BigDecimal energy = bill.lines().get(0).amount();
    BigDecimal each = energy.multiply(new BigDecimal("0.02"));
    assertEquals(0, each.multiply(line.quantity()).compareTo(line.exact()));
  }

  @Test
  void theTruePowerFactorCountsHarmonicsAndTheOtherDoesNot() {
    Tariff byTrue = new Tariffs().rate("all", "1").factor(true, "0.95", "1", "0.01").make();
    Tariff byOther = new Tariffs().rate("all", "1").factor(false, "0.95", "1", "0.01").make();
    // 98 kWh with 19.9 kvarh, and 112 kVAh for the harmonics
    Bill pays = Bill.of(Tariffs.usage(byTrue, 1, 19_900, 112_000, 98_000L));
    Bill paysNot = Bill.of(Tariffs.usage(byOther, 1, 19_900, 112_000, 98_000L));
    // 0.95 - 0.875 holds seven full steps, 7 % of 98
    assertEquals("6.86", pays.lines().get(1).amount().toPlainString());
    assertEquals("0.00", paysNot.lines().get(1).amount().toPlainString());
    assertTrue(pays.lines().get(1).how().contains("98.000 kWh / 112.000 kVAh = 0.8750"));
  }

  @Test
  void withoutEnergyThePowerFactorIsOne() {
    Tariff tariff = new Tariffs().rate("all", "1").factor(true, "0.95", "1", "0.01").make();
    assertEquals("0.00", Bill.of(Tariffs.usage(tariff, 1, 0, 0, 0L)).total().toPlainString());
  }

  /** Two tariffs in a month of 30 days: a demand charge is paid once, in proportion to days. */
  @Test
  void ofTwoTariffsEachTakesItsShareOfTheDemandCharge() {
    Tariff tariff = new Tariffs().rate("all", "0").demand("9.00", 15, 1).make();
    Usage.Peak peak = new Usage.Peak(2_500, 900_000_000L, NOON); // 10 kW
    Usage.Part ten = new Usage.Part(tariff, 10, List.of(0L), 0, 0, 0, peak, 0);
    Usage.Part twenty = new Usage.Part(tariff, 20, List.of(0L), 0, 0, 0, peak, 0);
    Bill bill = Bill.of(Tariffs.usage(ten, twenty));
    assertEquals("30.00", bill.lines().get(1).amount().toPlainString());
    assertEquals("60.00", bill.lines().get(3).amount().toPlainString());
    assertEquals("90.00", bill.total().toPlainString());
  }
}
