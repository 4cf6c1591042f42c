package bufferstop.billing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.billing.Balance.Metered;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The energy balance and what it is suspicious of; cases made by hand. */
class BalanceTest {
  private static Balance balance(long supplied, long lost, Metered... meters) {
    return Balance.of(supplied, lost, List.of(meters), new BigDecimal("1"));
  }

  private static Metered meter(String name, long imported, long exported) {
    return new Metered(name, imported, exported, true);
  }

  @Test
  void aBalanceClosesWithinItsTolerance() {
    Balance balance = balance(10_000, 300, meter("a", 6_000, 0), meter("b", 3_600, 0));
    assertEquals(100, balance.difference());
    assertEquals(100, balance.tolerance());
    assertTrue(balance.closes());
    assertEquals(List.of(), balance.warnings());
  }

  @Test
  void whatIsMissingIsSaid() {
    Balance balance = balance(10_000, 300, meter("a", 6_000, 0), meter("b", 3_599, 0));
    assertFalse(balance.closes());
    assertEquals(
        List.of(
            "the balance is off by 0.101 kWh, more than 0.100 kWh: something is not metered, or a"
                + " meter counts wrongly"),
        balance.warnings());
  }

  @Test
  void aReversedTransformerIsNamed() {
    Balance balance = balance(10_000, 300, meter("a", 0, 6_000), meter("b", 3_650, 0));
    assertEquals(12_050, balance.difference());
    assertEquals(1, balance.warnings().size());
    assertTrue(
        balance
            .warnings()
            .get(0)
            .startsWith(
                "`a` counts 6.000 kWh as exported, and counted as imported they would close the"
                    + " balance: its instrument transformer is connected the wrong way round"),
        balance.warnings().get(0));
  }

  @Test
  void aConsumerThatReallyExportsIsNotCalledReversed() {
    Balance balance = balance(3_000, 300, meter("a", 100, 1_100), meter("b", 3_700, 0));
    assertTrue(balance.closes());
    assertEquals(List.of("`a` counts 1.000 kWh as exported"), balance.warnings());
  }
}
