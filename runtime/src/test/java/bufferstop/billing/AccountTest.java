package bufferstop.billing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.model.Tariff;
import bufferstop.model.Tariff.Season;
import java.time.LocalDateTime;
import java.time.MonthDay;
import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a meter counts comes to the right rate, day and interval. Cases made by hand. */
class AccountTest {
  private static final long MINUTE = 60_000_000;
  private static final Season WINTER = new Season("winter", MonthDay.of(11, 1), MonthDay.of(2, 29));

  private static Tariff dayAndNight() {
    return new Tariffs()
        .rate("peak", "3")
        .rate("day", "2")
        .rate("night", "1")
        .time(0, Tariffs.WORKDAYS, 17 * 60, 20 * 60, WINTER)
        .time(1, Tariffs.EVERY_DAY, 7 * 60, 23 * 60, null)
        .make();
  }

  /** Reads a meter that counts so many Wh a minute, at each minute. */
  private static void steady(Account account, long minutes, long wattHours) {
    for (long i = 0; i <= minutes; i++) {
      account.read(i * MINUTE, new Reading(i * wattHours, 0, 0, 0, false));
    }
  }

  private static List<Long> byRate(Account account) {
    return account.usage().parts().get(0).wattHours();
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    // Wednesday, 14 January 2026
    "2026-01-14T16:59:59, 1",
    "2026-01-14T17:00:00, 0",
    "2026-01-14T19:59:59, 0",
    "2026-01-14T20:00:00, 1",
    "2026-01-14T22:59:00, 1",
    "2026-01-14T23:00:00, 2",
    "2026-01-14T06:59:00, 2",
    "2026-01-14T07:00:00, 1",
    // a Saturday, and summer
    "2026-01-17T18:00:00, 1",
    "2026-07-15T18:00:00, 1",
    // ends of the season belong to it, a leap day too
    "2026-10-30T18:00:00, 1",
    "2026-11-02T18:00:00, 0",
    "2026-02-27T18:00:00, 0",
    "2028-02-29T18:00:00, 0",
    "2026-03-02T18:00:00, 1"
  })
  void theFirstTimeOfUseThatFitsSaysTheRate(LocalDateTime moment, int rate) {
    assertEquals(rate, dayAndNight().rate(moment));
  }

  @Test
  void hoursMayGoOverMidnight() {
    Tariff tariff =
        new Tariffs()
            .rate("low", "1")
            .rate("high", "2")
            .time(0, Tariffs.EVERY_DAY, 22 * 60, 6 * 60, null)
            .make();
    assertEquals(0, tariff.rate(LocalDateTime.parse("2026-01-14T22:00")));
    assertEquals(0, tariff.rate(LocalDateTime.parse("2026-01-15T05:59")));
    assertEquals(1, tariff.rate(LocalDateTime.parse("2026-01-15T06:00")));
    assertEquals(1, tariff.rate(LocalDateTime.parse("2026-01-15T21:59")));
  }

  @Test
  void aDayComesToItsRates() {
    Account account = Tariffs.account("2026-01-14T00:00", "2026-01-15T00:00", dayAndNight());
    steady(account, 1440, 10);
    assertEquals(List.of(1800L, 7800L, 4800L), byRate(account)); // 3 h, 13 h, 8 h
  }

  /** A step over a boundary is split in proportion to time: 16:50 to 17:20, 300 Wh. */
  @Test
  void aStepOverABoundaryIsSplit() {
    Account account = Tariffs.account("2026-01-14T16:50", "2026-01-14T20:00", dayAndNight());
    account.read(0, new Reading(1_000, 0, 0, 0, false));
    account.read(30 * MINUTE, new Reading(1_300, 0, 0, 0, false));
    assertEquals(List.of(200L, 100L, 0L), byRate(account));
    // what cannot be divided goes to the last piece
    Account odd = Tariffs.account("2026-01-14T16:50", "2026-01-14T20:00", dayAndNight());
    odd.read(0, new Reading(0, 0, 0, 0, false));
    odd.read(30 * MINUTE, new Reading(100, 0, 0, 0, false));
    assertEquals(List.of(67L, 33L, 0L), byRate(odd));
  }

  /** A single reading after a week: each day, rate and interval gets its share. */
  @Test
  void aStepOverDaysIsSplitToo() {
    Account account = Tariffs.account("2026-01-12T00:00", "2026-01-19T00:00", dayAndNight());
    account.read(0, new Reading(0, 0, 0, 0, false));
    account.read(7 * 1440 * MINUTE, new Reading(168_000, 0, 0, 0, false));
    assertEquals(List.of(15_000L, 97_000L, 56_000L), byRate(account)); // h: 5 x 3, 7 x 16 - 15
    assertEquals(7, account.usage().days());
  }

  @Test
  void whatLiesOutsideThePeriodDoesNotCount() {
    Account account =
        Tariffs.account("2026-01-14T00:00", "2026-01-14T06:30", "2026-01-14T07:30", dayAndNight());
    account.read(0, new Reading(500, 0, 0, 0, false));
    account.read(420 * MINUTE, new Reading(4_700, 0, 0, 0, false)); // 07:00, 10 Wh a minute
    account.read(500 * MINUTE, new Reading(6_300, 0, 0, 0, false)); // 08:20, 20 Wh a minute
    account.read(600 * MINUTE, new Reading(9_999, 0, 0, 0, false));
    assertEquals(List.of(0L, 600L, 300L), byRate(account));
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"2026-01", "2026-02", "2026-04", "2028-02"})
  void aMonthHasItsDays(YearMonth month) {
    Tariff tariff = new Tariffs().rate("all", "0.5").standing("2").make();
    String from = month.atDay(1) + "T00:00";
    String to = month.plusMonths(1).atDay(1) + "T00:00";
    Account account = Tariffs.account(from, to, tariff);
    int days = month.lengthOfMonth();
    steady(account, 1440L * days, 100);
    Bill bill = Bill.of(account.usage());
    assertEquals(144_000L * days, account.usage().imported());
    assertEquals(days, account.usage().days());
    assertEquals(
        72 * days + 2 * days, bill.total().intValueExact(), "0.5 x 144 kWh a day, and 2 a day");
  }

  @Test
  void atTheTurnOfTariffsEachTakesItsDays() {
    Tariff old = new Tariffs().rate("all", "1").valid("2026-01-01", "2026-03-28").make();
    Tariff next = new Tariffs().rate("all", "2").valid("2026-03-29", "2026-12-31").make();
    Account account = Tariffs.account("2026-03-01T00:00", "2026-04-01T00:00", old, next);
    account.read(0, new Reading(0, 0, 0, 0, false));
    account.read(31 * 1440 * MINUTE, new Reading(31_000, 0, 0, 0, false));
    List<Usage.Part> parts = account.usage().parts();
    assertEquals(28, parts.get(0).days());
    assertEquals(28_000, parts.get(0).imported());
    assertEquals(3, parts.get(1).days());
    assertEquals(3_000, parts.get(1).imported());
  }

  /** Means of 5 min in kW; the total is 45 kWh. */
  private static final long[] LOADS = {30, 30, 120, 120, 120, 30, 30, 30, 30};

  private static Account demand(String from, int parts, long failedMinute) {
    Tariff tariff = new Tariffs().rate("all", "1").demand("1", 15, parts).make();
    Account account = Tariffs.account(from, "2026-01-14T12:00", tariff);
    long wattHours = 0;
    for (int minute = 0; minute <= 45; minute++) {
      boolean failed = minute == failedMinute;
      account.read(minute * MINUTE, new Reading(wattHours, 0, 0, 0, failed));
      wattHours += minute < 45 ? LOADS[minute / 5] * 1000 / 60 : 0;
    }
    return account;
  }

  private static Usage.Part part(Account account) {
    return account.usage().parts().get(0);
  }

  /** Section 5.7 of the reference: blocks 60, 90, 30 kW; sliding by 5 min at most 120. */
  @Test
  void demandByBlocksAndSliding() {
    Usage.Peak block = part(demand("2026-01-14T10:00", 1, -1)).demand();
    assertEquals(22_500, block.wattHours()); // 90 kW
    assertEquals(LocalDateTime.parse("2026-01-14T10:30"), block.end());
    Usage.Peak sliding = part(demand("2026-01-14T10:00", 3, -1)).demand();
    assertEquals(30_000, sliding.wattHours()); // 120 kW
    assertEquals(LocalDateTime.parse("2026-01-14T10:25"), sliding.end());
  }

  /** Blocks go by the clock: that of 10:00 was metered from 10:10 on, and not at all before. */
  @Test
  void anIntervalThatWasNotMeteredWholeDoesNotCount() {
    Tariff tariff = new Tariffs().rate("all", "1").demand("1", 15, 1).make();
    Account account = Tariffs.account("2026-01-14T10:10", "2026-01-14T12:00", tariff);
    for (int minute = 0; minute <= 20; minute++) {
      long wattHours = Math.min(minute, 5) * 1000 + Math.max(0, minute - 5) * 10;
      account.read(minute * MINUTE, new Reading(wattHours, 0, 0, 0, false));
    }
    assertEquals(150, part(account).demand().wattHours());
    assertEquals(LocalDateTime.parse("2026-01-14T10:30"), part(account).demand().end());
  }

  @Test
  void anIntervalCutByAPowerFailureIsFlaggedAndDoesNotCount() {
    Usage.Part flawed = part(demand("2026-01-14T10:00", 1, 20));
    assertEquals(15_000, flawed.demand().wattHours()); // that of 60 kW is left
    assertEquals(1, flawed.flawed());
  }

  @Test
  void withoutAWholeIntervalThereIsNoDemand() {
    Tariff tariff = new Tariffs().rate("all", "1").demand("1", 60, 1).make();
    Account account = Tariffs.account("2026-01-14T10:30", "2026-01-14T11:30", tariff);
    steady(account, 60, 10);
    assertNull(part(account).demand());
  }

  @Test
  void demandMayCountAtSomeRatesOnly() {
    Tariff tariff =
        new Tariffs()
            .rate("peak", "1")
            .rate("rest", "1")
            .time(0, Tariffs.EVERY_DAY, 17 * 60, 20 * 60, null)
            .demand("1", 15, 1, 0)
            .make();
    Account account = Tariffs.account("2026-01-14T00:00", "2026-01-15T00:00", tariff);
    long wattHours = 0;
    for (int minute = 0; minute <= 1440; minute++) {
      account.read(minute * MINUTE, new Reading(wattHours, 0, 0, 0, false));
      wattHours += minute >= 1020 && minute < 1200 ? 50 : 500;
    }
    assertEquals(750, part(account).demand().wattHours());
  }
}
