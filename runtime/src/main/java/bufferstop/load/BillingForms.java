package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Named;
import bufferstop.model.Shape.Number;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import bufferstop.model.Shape.Whole;

/** The keys of tariffs and of what is billed by them. */
final class BillingForms {
  private static final Shape PRICE = new Number(0, 1e6);
  private static final Shape PERCENT = new Number(0, 100);

  static final Form VALID =
      Form.of(
          "valid",
          "days of validity",
          required("from", Shape.TEXT, "first day").example("2026-01-01"),
          key("until", Shape.TEXT, "last day, by default none").example("2026-12-31"));

  static final Form SEASON =
      Form.of(
          "season",
          "a season",
          required("from", Shape.TEXT, "first day of the year").example("11-01"),
          required("until", Shape.TEXT, "last day of the year").example("03-31"));

  static final Form TIME_OF_USE =
      Form.of(
          "time_of_use",
          "a time of use",
          required("rate", Shape.NAME, "that holds").example("day"),
          key("days", Shape.NAMES, "of the week, by default all").example("[mon, tue]"),
          key("hours", Shape.TEXT, "from and to, by default all").example("06:00-22:00"),
          key("season", Shape.NAME, "by default all the year").example("winter"));

  static final Form DEMAND =
      Form.of(
          "demand",
          "a charge for demand",
          required("price", PRICE, "of a kW of the greatest demand"),
          key("interval", Shape.TIME, "over which demand is averaged").example("T#15m"),
          key("parts", new Whole(1, 60), "of an interval that slides; 1 for blocks"),
          key("during", Shape.NAMES, "rates in which it counts, by default all").example("day"));

  static final Form REACTIVE =
      Form.of(
          "reactive",
          "a charge for reactive energy",
          required("price", PRICE, "of a kvarh"),
          key("free", PERCENT, "share of the active energy that costs nothing, per cent"));

  static final Form POWER_FACTOR =
      Form.of(
          "power_factor",
          "a charge for power factor",
          required("measured", Shape.words(TariffLoader.Measured.class), "which of the two"),
          required("least", new Number(0, 1), "that costs nothing"),
          required("percent", PERCENT, "on the energy for each step below"),
          key("for_each", new Number(0.001, 1), "the step").example("0.01"));

  static final Form TAX =
      Form.of(
          "tax",
          "a tax",
          required("percent", PERCENT, "of all before"),
          key("text", Shape.TEXT, "its name on the bill"));

  static final Form ROUNDING =
      Form.of(
          "rounding",
          "a rule of rounding",
          key("decimals", new Whole(0, 6), "of the currency"),
          key("mode", Shape.words(TariffLoader.Mode.class), "where a half goes"),
          key("of", Shape.words(TariffLoader.Rounded.class), "what is rounded"));

  static final Form TARIFF =
      Form.of(
          "tariff",
          "a tariff",
          required("tariff", Shape.TEXT, "its name").example("Works, time of use"),
          key("currency", Shape.TEXT, "as printed").example("crowns"),
          required("valid", new Section(new Of(VALID)), "first and last day"),
          key("standing", PRICE, "a day"),
          required("energy", new Section(new Named(PRICE, true)), "price of a kWh, by rate")
              .example("{day: 0.21, night: 0.12}"),
          key("seasons", new Section(Shape.named(new Of(SEASON))), "parts of the year by name"),
          key("times", new Section(new ListOf(new Of(TIME_OF_USE))), "when which rate holds"),
          key("demand", new Section(new Of(DEMAND)), "charge for the greatest demand"),
          key("reactive", new Section(new Of(REACTIVE)), "charge for reactive energy"),
          key("power_factor", new Section(new Of(POWER_FACTOR)), "charge for power factor"),
          key("tax", new Section(new Of(TAX)), "on the whole"),
          key("rounding", new Section(new Of(ROUNDING)), "of money"));

  private static final Shape TARIFF_THERE = new Section(new Of(TARIFF));

  static final Form CONSUMER =
      Form.of(
          "consumer",
          "a consumer",
          required("meter", Shape.NAME, "that measures it").example("mains.meter.works"),
          required(
                  "tariff",
                  Shape.either(TARIFF_THERE, new ListOf(TARIFF_THERE)),
                  "the tariff, or several in the order of their days")
              .example("works.yaml"),
          key("text", Shape.TEXT, "one line for people"));

  static final Form PERIOD =
      Form.of(
          "period",
          "a period",
          required("from", Shape.TEXT, "its beginning").example("2026-03-01"),
          required("to", Shape.TEXT, "its end, which does not belong").example("2026-04-01"));

  static final Form BILLING =
      Form.of(
          "billing",
          "billing",
          required("start", Shape.TEXT, "local date and time of the first scan")
              .example("2026-03-01 00:00"),
          required("consumers", new Section(Shape.named(new Of(CONSUMER))), "who pays, by name"),
          required("periods", new Section(Shape.named(new Of(PERIOD))), "what is billed, by name"),
          key("unbilled", Shape.NAMES, "meters of what nobody pays").example("mains.meter.lamps"),
          key("supplied", Shape.NAME, "energy that the source gives").example("mains.supplied"),
          key("lost", Shape.NAME, "energy that resistances lose").example("mains.lost"),
          key("tolerance", PERCENT, "of the balance, per cent"));

  private BillingForms() {}
}
