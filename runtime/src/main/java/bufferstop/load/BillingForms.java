package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Named;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import bufferstop.model.Shape.Whole;

/** The keys of billing: who pays by which tariff, what is billed, and of tariffs. */
final class BillingForms {
  private static final String MOMENT = "2026-11-01 00:00";

  static final Form VALID =
      Form.of(
          "tariff_valid",
          "days of validity",
          required("from", Shape.TEXT, "first day").example("2026-11-01"),
          key("until", Shape.TEXT, "last day, which belongs to it").example("2026-11-30"));

  static final Form SEASON =
      Form.of(
          "tariff_season",
          "a season",
          required("from", Shape.TEXT, "first day of the year").example("11-01"),
          required("until", Shape.TEXT, "last day of the year").example("03-31"));

  static final Form TIME =
      Form.of(
          "tariff_time",
          "a time of use",
          required("rate", Shape.NAME, "the rate that holds").example("day"),
          key("days", Shape.NAMES, "days of the week; every day without").example("[mon, tue]"),
          key("hours", Shape.TEXT, "of the day; all of it without").example("06:00-22:00"),
          key("season", Shape.NAME, "of the year; all of it without").example("winter"));

  static final Form DEMAND =
      Form.of(
          "tariff_demand",
          "a charge for demand",
          required("price", Shape.LITERAL, "of a kW of the greatest demand").example("4.20"),
          key("interval", Shape.TIME, "over which demand is averaged").example("T#15m"),
          key("parts", new Whole(1, 60), "of a sliding interval"),
          key("during", Shape.NAMES, "rates in which it counts; all without").example("[day]"));

  static final Form REACTIVE =
      Form.of(
          "tariff_reactive",
          "a charge for reactive energy",
          required("price", Shape.LITERAL, "of a kvarh").example("0.02"),
          key("free", Shape.LITERAL, "kvarh a kWh that cost nothing").example("0.5"));

  static final Form POWER_FACTOR =
      Form.of(
          "tariff_power_factor",
          "a charge for power factor",
          required("measured", Shape.words(TariffLoader.Measured.class), "which one"),
          required("least", Shape.LITERAL, "below this it is charged for").example("0.9"),
          required("percent", Shape.LITERAL, "of the price, for each step below").example("1"),
          key("for_each", Shape.LITERAL, "the step").example("0.01"));

  static final Form TAX =
      Form.of(
          "tariff_tax",
          "a tax",
          required("percent", Shape.LITERAL, "of the sum").example("19"),
          key("text", Shape.TEXT, "what the bill calls it"));

  static final Form ROUNDING =
      Form.of(
          "tariff_rounding",
          "a rule of rounding",
          key("decimals", new Whole(0, 6), "of an amount"),
          key("mode", Shape.words(TariffLoader.Mode.class), "what becomes of a half"),
          key("of", Shape.words(TariffLoader.Rounded.class), "what is rounded"));

  static final Form TARIFF =
      Form.of(
          "tariff",
          "a tariff",
          required("tariff", Shape.TEXT, "its name"),
          key("currency", Shape.TEXT, "as the bill writes it"),
          required("valid", section(VALID), "from when until when"),
          key("standing", Shape.LITERAL, "standing charge").example("12.50"),
          required("energy", new Section(Shape.named(Shape.LITERAL)), "price of a kWh by rate")
              .example("{day: 0.31}"),
          key("seasons", new Section(new Named(new Of(SEASON), false)), "seasons by name"),
          key("times", new Section(new ListOf(new Of(TIME))), "the first that fits holds"),
          key("demand", section(DEMAND), "charge for the greatest demand"),
          key("reactive", section(REACTIVE), "charge for reactive energy"),
          key("power_factor", section(POWER_FACTOR), "charge for power factor"),
          key("tax", section(TAX), "on all of it"),
          key("rounding", section(ROUNDING), "how amounts are rounded"));

  static final Form CONSUMER =
      Form.of(
          "consumer",
          "a consumer",
          key("text", Shape.TEXT, "for the head of the bill"),
          required("meter", Shape.NAME, "the meter that counts").example("mains.meter"),
          required(
              "tariff",
              Shape.either(section(TARIFF), new ListOf(section(TARIFF))),
              "a tariff, or several in the order of their days"));

  static final Form PERIOD =
      Form.of(
          "period",
          "a period",
          required("from", Shape.TEXT, "when it begins").example(MOMENT),
          required("to", Shape.TEXT, "when it ends, which does not belong").example(MOMENT));

  static final Form BILLING =
      Form.of(
          "billing",
          "billing",
          required("start", Shape.TEXT, "the moment at which logical time begins").example(MOMENT),
          required("consumers", new Section(Shape.named(new Of(CONSUMER))), "who pays"),
          required("periods", new Section(Shape.named(new Of(PERIOD))), "what is billed"),
          key("unbilled", Shape.NAMES, "meters that nobody pays for").example("[own.meter]"),
          key("supplied", Shape.NAME, "energy that was supplied").example("mains.energy"),
          key("lost", Shape.NAME, "energy that was lost on the way").example("mains.lost"),
          key("tolerance", Shape.LITERAL, "of the balance, percent").example("0.5"));

  private BillingForms() {}

  private static Shape section(Form form) {
    return new Section(new Of(form));
  }
}
