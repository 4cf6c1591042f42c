package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.Tariff;
import bufferstop.model.Tariff.Demand;
import bufferstop.model.Tariff.PowerFactor;
import bufferstop.model.Tariff.Rate;
import bufferstop.model.Tariff.Reactive;
import bufferstop.model.Tariff.Rounding;
import bufferstop.model.Tariff.Season;
import bufferstop.model.Tariff.Tax;
import bufferstop.model.Tariff.Time;
import bufferstop.model.Tree;
import bufferstop.model.Values;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** Reads one tariff. Used for one file. */
final class TariffLoader {
  private static final BigDecimal ZERO = BigDecimal.ZERO;
  private static final BigDecimal ONE = BigDecimal.ONE;
  private static final BigDecimal HUNDRED = new BigDecimal(100);
  private static final BigDecimal DEAREST = new BigDecimal(1_000_000);
  private static final long MINUTE_MICROS = 60_000_000;
  private static final long DAY_MICROS = 1440 * MINUTE_MICROS;
  private static final long USUAL_INTERVAL = 15 * MINUTE_MICROS;
  private static final int MOST_PARTS = 60;
  private static final int USUAL_DECIMALS = 2;
  private static final int MOST_DECIMALS = 6;
  private static final List<String> DAYS =
      Stream.of(DayOfWeek.values()).map(TariffLoader::word).toList();

  private final Sections sections;
  private final Diagnostics problems;
  private final Amounts amounts;
  private final List<Rate> rates = new ArrayList<>();
  private final List<Season> seasons = new ArrayList<>();
  private final Set<Integer> used = new TreeSet<>();

  TariffLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
    amounts = new Amounts(problems);
  }

  private static String word(DayOfWeek day) {
    return day.name().substring(0, 3).toLowerCase(Locale.ROOT);
  }

  /** Null when there is nothing to go on with. */
  Tariff read(Tree tree) {
    TableReader reader = TableReader.open(tree, BillingForms.TARIFF, problems);
    if (reader == null) {
      return null;
    }
    SourceText name = reader.requiredText("tariff");
    String currency = reader.words("currency");
    LocalDate[] valid = validity(reader);
    BigDecimal standing = price(reader, "standing", ZERO);
    energy(reader);
    seasons(reader);
    List<Time> times = times(reader);
    Tariff tariff =
        new Tariff(
            name == null ? "unnamed" : name.value(),
            currency,
            valid[0],
            valid[1],
            standing,
            List.copyOf(rates),
            times,
            demand(reader),
            reactive(reader),
            powerFactor(reader),
            tax(reader),
            rounding(reader),
            reader.position());
    reader.finish();
    return tariff;
  }

  private BigDecimal price(TableReader reader, String key, BigDecimal otherwise) {
    return amounts.decimal(reader, key, ZERO, DEAREST, otherwise);
  }

  private BigDecimal requiredPrice(TableReader reader) {
    reader.required("price");
    return price(reader, "price", ZERO);
  }

  private LocalDate[] validity(TableReader tariff) {
    tariff.required("valid");
    TableReader reader = sections.table(tariff, "valid", BillingForms.VALID);
    LocalDate from = null;
    LocalDate until = null;
    if (reader != null) {
      reader.required("from");
      from = amounts.date(reader, "from");
      until = amounts.date(reader, "until");
      reader.finish();
      if (from != null && until != null && until.isBefore(from)) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_TIMES,
                    reader.tree("until").position(),
                    "the tariff ends before it has begun")
                .expected("not before " + from + "; both days belong to it"));
      }
    }
    return new LocalDate[] {
      from == null ? LocalDate.MIN : from, until == null ? LocalDate.MAX : until
    };
  }

  private void energy(TableReader tariff) {
    tariff.required("energy");
    int before = problems.errors();
    List<Tree.Entry> entries = sections.names(tariff, "energy", "prices of a kWh by rate");
    for (Tree.Entry entry : entries) {
      boolean named = Identifiers.check(entry.key(), problems);
      SourceText text = TableReader.textOf(entry, problems);
      BigDecimal price = text == null ? null : amounts.decimal(text, ZERO, DEAREST);
      if (named) {
        rates.add(new Rate(entry.key().text(), price == null ? ZERO : price));
      }
    }
    if (entries.isEmpty() && tariff.has("energy") && problems.errors() == before) {
      problems.add(
          Diagnostic.error(
                  Code.NOTHING_GIVEN,
                  tariff.entry("energy").key().position(),
                  "`energy` names no rate")
              .expected("rate: price"));
    }
  }

  private void seasons(TableReader tariff) {
    for (Tree.Entry entry : sections.names(tariff, "seasons", "seasons by name")) {
      TableReader reader = TableReader.open(entry, BillingForms.SEASON, problems);
      if (reader == null) {
        continue;
      }
      reader.required("from");
      reader.required("until");
      MonthDay from = amounts.dayOfYear(reader, "from");
      MonthDay until = amounts.dayOfYear(reader, "until");
      reader.finish();
      MonthDay first = MonthDay.of(1, 1);
      seasons.add(
          new Season(
              entry.key().text(), from == null ? first : from, until == null ? first : until));
    }
  }

  /** Without `times` a tariff has one rate. */
  private List<Time> times(TableReader tariff) {
    List<Time> times = new ArrayList<>();
    List<Tree> items = sections.list(tariff, "times", "a list of {rate: , days: , hours: }");
    boolean ended = false;
    for (Tree item : items) {
      TableReader reader = TableReader.open(item, BillingForms.TIME_OF_USE, problems);
      Time time = reader == null ? null : time(reader);
      if (ended) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_TARIFF, item.position(), "nothing is left for this time of use")
                .expected("the one that fits always as the last"));
      }
      ended |= time != null && fitsAlways(time);
      if (time != null) {
        times.add(time);
      }
    }
    if (!tariff.has("times") && rates.size() == 1) {
      used.add(0);
      return List.of(new Time(0, EnumSet.allOf(DayOfWeek.class), 0, 1440, null));
    }
    if (!ended && !rates.isEmpty() && times.size() == items.size()) {
      Tree.Entry at = tariff.entry(tariff.has("times") ? "times" : "energy");
      problems.add(
          Diagnostic.error(
                  Code.BAD_TARIFF,
                  at.key().position(),
                  "nothing says which rate holds at all other times")
              .expected("as the last of `times`: {rate: " + rates.get(0).name() + "}"));
    }
    for (int i = 0; i < rates.size() && ended; i++) {
      if (!used.contains(i)) {
        problems.add(
            Diagnostic.warning(
                Code.BAD_TARIFF,
                tariff.entry("energy").key().position(),
                "rate `" + rates.get(i).name() + "` never holds"));
      }
    }
    return List.copyOf(times);
  }

  private static boolean fitsAlways(Time time) {
    return time.season() == null
        && time.days().size() == DAYS.size()
        && time.fromMinute() == 0
        && time.toMinute() == 1440;
  }

  private Time time(TableReader reader) {
    Name rate = reader.requiredName("rate");
    int number = rate == null ? -1 : rate(rate);
    Set<DayOfWeek> days = days(reader);
    SourceText hours = reader.text("hours");
    int[] minutes = hours == null ? new int[] {0, 1440} : amounts.hours(hours);
    Name season = reader.name("season");
    Season found = null;
    if (season != null) {
      found =
          seasons.stream()
              .filter(s -> s.name().equalsIgnoreCase(season.text()))
              .findFirst()
              .orElse(null);
      if (found == null) {
        List<String> names = seasons.stream().map(Season::name).toList();
        unknown("season", season, names);
      }
    }
    reader.finish();
    return number < 0 || minutes == null || season != null && found == null
        ? null
        : new Time(number, days, minutes[0], minutes[1], found);
  }

  /** Number of a rate; -1 after a diagnostic. */
  private int rate(Name name) {
    for (int i = 0; i < rates.size(); i++) {
      if (rates.get(i).name().equalsIgnoreCase(name.text())) {
        used.add(i);
        return i;
      }
    }
    if (!rates.isEmpty()) {
      unknown("rate", name, rates.stream().map(Rate::name).toList());
    }
    return -1;
  }

  private void unknown(String what, Name name, List<String> names) {
    problems.add(
        Diagnostic.error(
                Code.UNKNOWN_NAME, name.position(), "no " + what + " named `" + name.text() + "`")
            .expected(names.isEmpty() ? "none is declared" : String.join(", ", names))
            .help(NearNames.question(name.text(), names)));
  }

  private Set<DayOfWeek> days(TableReader reader) {
    List<Name> names = reader.names("days");
    Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
    for (Name name : names) {
      int day = DAYS.indexOf(name.text().toLowerCase(Locale.ROOT));
      if (day < 0) {
        unknown("day", name, DAYS);
      } else {
        days.add(DayOfWeek.of(day + 1));
      }
    }
    return names.isEmpty() ? EnumSet.allOf(DayOfWeek.class) : days;
  }

  private Demand demand(TableReader tariff) {
    TableReader reader = sections.table(tariff, "demand", BillingForms.DEMAND);
    if (reader == null) {
      return null;
    }
    BigDecimal price = requiredPrice(reader);
    long interval = reader.time("interval", USUAL_INTERVAL, MINUTE_MICROS);
    int parts = (int) reader.whole("parts", 1, 1, MOST_PARTS);
    if (DAY_MICROS % interval != 0 || interval % parts != 0) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree("interval").position(),
                  "a day does not hold a whole number of " + Values.time(interval))
              .expected("an interval such as T#15m or T#30m, its parts whole"));
      interval = USUAL_INTERVAL;
      parts = 1;
    }
    Set<Integer> during = new TreeSet<>();
    for (Name name : reader.names("during")) {
      int rate = rate(name);
      if (rate >= 0) {
        during.add(rate);
      }
    }
    reader.finish();
    return new Demand(price, interval, parts, Set.copyOf(during));
  }

  private Reactive reactive(TableReader tariff) {
    TableReader reader = sections.table(tariff, "reactive", BillingForms.REACTIVE);
    if (reader == null) {
      return null;
    }
    Reactive reactive =
        new Reactive(requiredPrice(reader), amounts.decimal(reader, "free", ZERO, HUNDRED, ZERO));
    reader.finish();
    return reactive;
  }

  enum Measured {
    TRUE_POWER_FACTOR,
    DISPLACEMENT
  }

  private PowerFactor powerFactor(TableReader tariff) {
    TableReader reader = sections.table(tariff, "power_factor", BillingForms.POWER_FACTOR);
    if (reader == null) {
      return null;
    }
    reader.required("measured");
    Measured measured = reader.choice("measured", Measured.class, Measured.TRUE_POWER_FACTOR);
    reader.required("least");
    reader.required("percent");
    BigDecimal step = new BigDecimal("0.01");
    PowerFactor charge =
        new PowerFactor(
            measured == Measured.TRUE_POWER_FACTOR,
            amounts.decimal(reader, "least", ZERO, ONE, ONE),
            amounts.decimal(reader, "percent", ZERO, HUNDRED, ZERO),
            amounts.decimal(reader, "for_each", new BigDecimal("0.001"), ONE, step));
    reader.finish();
    return charge;
  }

  private Tax tax(TableReader tariff) {
    TableReader reader = sections.table(tariff, "tax", BillingForms.TAX);
    if (reader == null) {
      return null;
    }
    reader.required("percent");
    SourceText name = reader.text("text");
    Tax tax =
        new Tax(
            name == null ? "tax" : name.value(),
            amounts.decimal(reader, "percent", ZERO, HUNDRED, ZERO));
    reader.finish();
    return tax;
  }

  enum Mode {
    HALF_UP,
    HALF_EVEN
  }

  enum Rounded {
    LINES,
    TOTAL
  }

  private Rounding rounding(TableReader tariff) {
    TableReader reader = sections.table(tariff, "rounding", BillingForms.ROUNDING);
    if (reader == null) {
      return new Rounding(USUAL_DECIMALS, RoundingMode.HALF_UP, true);
    }
    int decimals = (int) reader.whole("decimals", USUAL_DECIMALS, 0, MOST_DECIMALS);
    Mode mode = reader.choice("mode", Mode.class, Mode.HALF_UP);
    Rounded of = reader.choice("of", Rounded.class, Rounded.LINES);
    reader.finish();
    return new Rounding(decimals, RoundingMode.valueOf(mode.name()), of == Rounded.LINES);
  }
}
