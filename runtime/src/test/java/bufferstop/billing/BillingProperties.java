package bufferstop.billing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Tariff;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds for every tariff and every course of a meter; the seed is the test's name. */
class BillingProperties {
  private static final int CASES = 200;
  private static final long DAY = 86_400_000_000L;

  static Stream<Arguments> seeds() {
    return new SplittableRandom(20_260_301).longs(CASES).mapToObj(Arguments::of);
  }

  private static String price(SplittableRandom random) {
    return BigDecimal.valueOf(random.nextInt(1_000_000), random.nextInt(2, 6)).toPlainString();
  }

  private static Tariff tariff(SplittableRandom random, boolean eachLine) {
    Tariffs made = new Tariffs();
    int rates = random.nextInt(1, 5);
    for (int i = 0; i < rates; i++) {
      made.rate("r" + i, price(random));
      int from = random.nextInt(1440);
      int to = (from + random.nextInt(1, 1440)) % 1440;
      made.time(i, random.nextBoolean() ? Tariffs.EVERY_DAY : Tariffs.WORKDAYS, from, to, null);
    }
    made.standing(price(random)).tax(price(random));
    made.reactive(price(random), "0.4").factor(random.nextBoolean(), "0.95", "1.5", "0.01");
    made.demand(price(random), new int[] {5, 15, 30, 60}[random.nextInt(4)], 1);
    RoundingMode mode = random.nextBoolean() ? RoundingMode.HALF_UP : RoundingMode.HALF_EVEN;
    return made.rounding(random.nextInt(4), mode, eachLine).make();
  }

  private static long fed(Account account, SplittableRandom random) {
    long[] at = new long[4];
    long micros = 0;
    long first = -1;
    while (micros < 3 * DAY) {
      account.read(micros, new Reading(at[0], at[1], at[2], at[3], false));
      first = first < 0 ? at[0] : first;
      micros = Math.min(3 * DAY, micros + random.nextLong(1, DAY / 4));
      for (int i = 0; i < 4; i++) {
        at[i] += random.nextInt(100_000);
      }
    }
    account.read(micros, new Reading(at[0], at[1], at[2], at[3], false));
    return at[0] - first;
  }

  @ParameterizedTest(name = "seed {0}")
  @MethodSource("seeds")
  void energyByRateSumsToWhatTheMeterCounted(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Account account = Tariffs.account("2026-02-27T00:00", "2026-03-02T00:00", tariff(random, true));
    long counted = fed(account, random);
    assertEquals(counted, account.usage().imported());
    Usage.Part part = account.usage().parts().get(0);
    assertTrue(part.wattHours().stream().allMatch(w -> w >= 0), () -> "" + part);
    assertTrue(part.demand().wattHours() <= counted);
  }

  @ParameterizedTest(name = "seed {0}")
  @MethodSource("seeds")
  void theTotalIsTheSumOfTheLines(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    boolean eachLine = random.nextBoolean();
    Tariff tariff = tariff(random, eachLine);
    Account account = Tariffs.account("2026-02-27T00:00", "2026-03-02T00:00", tariff);
    fed(account, random);
    Bill bill = Bill.of(account.usage());
    BigDecimal lines =
        Stream.concat(bill.lines().stream(), bill.taxes().stream())
            .map(Bill.Line::amount)
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    Tariff.Rounding rounding = tariff.rounding();
    BigDecimal expected = eachLine ? lines : lines.setScale(rounding.decimals(), rounding.mode());
    assertEquals(0, expected.compareTo(bill.total()), () -> bill + "");
    for (Bill.Line line : bill.lines()) {
      BigDecimal exact = line.quantity().multiply(line.price());
      assertEquals(0, exact.compareTo(line.exact()), () -> line + "");
    }
  }
}
