package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import bufferstop.model.Shape.Whole;

/** The keys of billing and of tariffs. */
final class BillingForms {
  private static final Shape PRICE = new Shape.Number(0, 1_000_000);
  private static final Shape PERCENT = new Shape.Number(0, 100);

  static final Form VALID =
      Form.of(
          "valid",
          "days of validity",
          required("from", Shape.TEXT, "first day").example("2026-01-01"),
          key("until", Shape.TEXT, "last day").example("2026-12-31"));

  static final Form SEASON =
      Form.of(
          "season",
          "a season",
          required("from", Shape.TEXT, "first day of the year, month and day").example("11-01"),
          required("until", Shape.TEXT, "last day").example("03-31"));

  static final Form TIME =
      Form.of(
          "time_of_use",
          "a time of use",
          required("rate", Shape.NAME, "that holds").example("peak"),
          key("days", Shape.NAMES, "mon to sun; every day without it").example("[mon, tue]"),
          key("hours", Shape.TEXT, "of the day, the end not part").example("07:00-21:00"),
          key("season", Shape.NAME, "of the year").example("winter"));

  static final Form DEMAND =
      Form.of(
          "demand",
          "a charge for demand",
          required("price", PRICE, "of a kW of the greatest demand").example("9.40"),
          key("interval", Shape.TIME, "that divides a day").example("T#15m"),
          key("parts", new Whole(1, 60), "by which it slides; 1: blocks of the clock"),
          key("during", Shape.NAMES, "rates in which an interval counts").example("[peak]"));

  static final Form REACTIVE =
      Form.of(
          "reactive",
          "a charge for reactive energy",
          required("price", PRICE, "of a kvarh").example("0.0120"),
          key("free", PERCENT, "kvarh a kWh without charge").example("0.5"));

  static final Form POWER_FACTOR =
      Form.of(
          "power_factor",
          "a charge for power factor",
          required("measured", Shape.words(TariffLoader.Measured.class), "which of the two"),
          required("least", new Shape.Number(0, 1), "without charge down to here").example("0.95"),
          required("percent", PERCENT, "of energy and demand for each step").example("1"),
          key("for_each", new Shape.Number(0.001, 1), "a step").example("0.01"));

  static final Form TAX =
      Form.of(
          "tax",
          "a tax",
          required("percent", PERCENT, "of all other lines").example("5"),
          key("text", Shape.TEXT, "its name"));

  static final Form ROUNDING =
      Form.of(
          "rounding",
          "a rule of rounding",
          key("decimals", new Whole(0, 6), "of the currency"),
          key("mode", Shape.words(TariffLoader.Mode.class), "where a tie goes"),
          key("of", Shape.words(TariffLoader.Rounded.class), "each line, or only the total"));

  static final Form TARIFF =
      Form.of(
          "tariff",
          "a tariff",
          required("tariff", Shape.TEXT, "name for people"),
          key("currency", Shape.TEXT, "as bills show it").example("crowns"),
          required("valid", new Section(new Of(VALID)), "its days"),
          key("standing", PRICE, "price of a day").example("0.4250"),
          required("energy", new Section(Shape.named(PRICE)), "price of a kWh by rate")
              .example("{peak: 0.1620}"),
          key("seasons", new Section(Shape.named(new Of(SEASON))), "by name"),
          key("times", new Section(new ListOf(new Of(TIME))), "when which rate holds"),
          key("demand", new Section(new Of(DEMAND)), "a charge for demand"),
          key("reactive", new Section(new Of(REACTIVE)), "a charge for reactive energy"),
          key("power_factor", new Section(new Of(POWER_FACTOR)), "a charge for power factor"),
          key("tax", new Section(new Of(TAX)), "on all lines"),
          key("rounding", new Section(new Of(ROUNDING)), "how amounts are rounded"));

  private static final Shape TARIFFS =
      Shape.either(new Section(new Of(TARIFF)), new ListOf(new Section(new Of(TARIFF))));

  static final Form CONSUMER =
      Form.of(
          "consumer",
          "a consumer",
          required("meter", Shape.NAME, "head of its meter's values")
              .example("works.meter.cottages"),
          required("tariff", TARIFFS, "what is paid by; several follow each other"),
          key("text", Shape.TEXT, "one line for people"));

  static final Form PERIOD =
      Form.of(
          "period",
          "a period",
          required("from", Shape.TEXT, "beginning").example("2026-03-01"),
          required("to", Shape.TEXT, "end, not included").example("2026-04-01"));

  static final Form BILLING =
      Form.of(
          "billing",
          "billing",
          required("start", Shape.TEXT, "local date of logical time zero").example("2026-03-01"),
          required("consumers", new Section(Shape.named(new Of(CONSUMER))), "by name"),
          required("periods", new Section(Shape.named(new Of(PERIOD))), "by name"),
          key("unbilled", Shape.NAMES, "further meters").example("[works.meter.press]"),
          key("supplied", Shape.NAME, "energy given, Wh").example("works.source.supplied"),
          key("lost", Shape.NAME, "energy lost, Wh").example("works.network.lost"),
          key("tolerance", PERCENT, "of the balance, per cent").example("0.5"));

  private BillingForms() {}
}
