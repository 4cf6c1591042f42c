package bufferstop.billing;

import bufferstop.model.Billing;
import bufferstop.model.Billing.Consumer;
import bufferstop.model.Billing.Period;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Tariff;
import bufferstop.model.Tariff.Demand;
import bufferstop.model.Tariff.PowerFactor;
import bufferstop.model.Tariff.Rate;
import bufferstop.model.Tariff.Reactive;
import bufferstop.model.Tariff.Rounding;
import bufferstop.model.Tariff.Season;
import bufferstop.model.Tariff.Tax;
import bufferstop.model.Tariff.Time;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Makes tariffs, periods and accounts for tests. */
final class Tariffs {
  static final Position HERE = Position.ofFile("test");
  static final Set<DayOfWeek> EVERY_DAY = EnumSet.allOf(DayOfWeek.class);
  static final Set<DayOfWeek> WORKDAYS = EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY);

  private final List<Rate> rates = new ArrayList<>();
  private final List<Time> times = new ArrayList<>();
  private LocalDate from = LocalDate.of(2000, 1, 1);
  private LocalDate until = LocalDate.MAX;
  private String standing = "0";
  private Demand demand;
  private Reactive reactive;
  private PowerFactor factor;
  private Tax tax;
  private Rounding rounding = new Rounding(2, RoundingMode.HALF_UP, true);

  Tariffs rate(String name, String price) {
    rates.add(new Rate(name, new BigDecimal(price)));
    return this;
  }

  Tariffs time(int rate, Set<DayOfWeek> days, int fromMinute, int toMinute, Season season) {
    times.add(new Time(rate, days, fromMinute, toMinute, season));
    return this;
  }

  Tariffs valid(String first, String last) {
    from = LocalDate.parse(first);
    until = LocalDate.parse(last);
    return this;
  }

  Tariffs standing(String price) {
    standing = price;
    return this;
  }

  Tariffs demand(String price, int minutes, int parts, Integer... during) {
    demand = new Demand(new BigDecimal(price), minutes * 60_000_000L, parts, Set.of(during));
    return this;
  }

  Tariffs reactive(String price, String free) {
    reactive = new Reactive(new BigDecimal(price), new BigDecimal(free));
    return this;
  }

  Tariffs factor(boolean ofDistortionToo, String least, String percent, String step) {
    factor =
        new PowerFactor(
            ofDistortionToo, new BigDecimal(least), new BigDecimal(percent), new BigDecimal(step));
    return this;
  }

  Tariffs tax(String percent) {
    tax = new Tax("tax", new BigDecimal(percent));
    return this;
  }

  Tariffs rounding(int decimals, RoundingMode mode, boolean eachLine) {
    rounding = new Rounding(decimals, mode, eachLine);
    return this;
  }

  Tariff make() {
    List<Time> all = new ArrayList<>(times);
    all.add(new Time(rates.size() - 1, EVERY_DAY, 0, 1440, null));
    return new Tariff(
        "test",
        "crowns",
        from,
        until,
        new BigDecimal(standing),
        List.copyOf(rates),
        List.copyOf(all),
        demand,
        reactive,
        factor,
        tax,
        rounding,
        HERE);
  }

  /** An account whose run begins with its period. */
  static Account account(String from, String to, Tariff... tariffs) {
    return account(from, from, to, tariffs);
  }

  static Account account(String start, String from, String to, Tariff... tariffs) {
    Period period = new Period("period", LocalDateTime.parse(from), LocalDateTime.parse(to), HERE);
    Consumer consumer = new Consumer("one", "", new Name("m", HERE), List.of(tariffs));
    Billing billing =
        new Billing(
            LocalDateTime.parse(start),
            List.of(consumer),
            List.of(),
            null,
            null,
            BigDecimal.ONE,
            List.of(period));
    return new Account(billing, consumer, period);
  }

  /** One who used so much, by rate. */
  static Usage usage(Tariff tariff, long days, long reactive, long apparent, Long... wattHours) {
    return usage(new Usage.Part(tariff, days, List.of(wattHours), 0, reactive, apparent, null, 0));
  }

  static Usage usage(Usage.Part... parts) {
    Account account = account("2026-03-01T00:00", "2026-04-01T00:00", parts[0].tariff());
    Usage empty = account.usage();
    return new Usage(empty.consumer(), empty.period(), List.of(parts));
  }
}
