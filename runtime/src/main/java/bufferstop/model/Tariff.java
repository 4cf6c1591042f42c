package bufferstop.model;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.MonthDay;
import java.util.List;
import java.util.Set;

/**
 * What a consumer pays. Money and prices are decimal numbers, never binary ones.
 *
 * @param name for people
 * @param currency as bills show it
 * @param from first day it is valid
 * @param until last day it is valid; {@link LocalDate#MAX} for ever
 * @param standing price of a day; 0 for none
 * @param rates prices of energy, at least one
 * @param times when which rate holds: the first that fits; the last fits always
 * @param demand null for none
 * @param reactive null for none
 * @param powerFactor null for none
 * @param tax null for none
 */
public record Tariff(
    String name,
    String currency,
    LocalDate from,
    LocalDate until,
    BigDecimal standing,
    List<Rate> rates,
    List<Time> times,
    Demand demand,
    Reactive reactive,
    PowerFactor powerFactor,
    Tax tax,
    Rounding rounding,
    Position position) {

  /**
   * A price of energy.
   *
   * @param price a kWh
   */
  public record Rate(String name, BigDecimal price) {}

  /** Days of a year, both ends included; it may go over the turn of the year. */
  public record Season(String name, MonthDay from, MonthDay until) {

    /** Whether a day belongs to it. */
    public boolean holds(LocalDate date) {
      MonthDay day = MonthDay.from(date);
      boolean after = !day.isBefore(from);
      boolean before = !day.isAfter(until);
      return from.isAfter(until) ? after || before : after && before;
    }
  }

  /**
   * When a rate holds.
   *
   * @param rate number of the rate in the tariff
   * @param days of the week
   * @param fromMinute of the day, included
   * @param toMinute of the day, not included; below {@code fromMinute} it goes over midnight
   * @param season null for the whole year
   */
  public record Time(int rate, Set<DayOfWeek> days, int fromMinute, int toMinute, Season season) {

    /** Whether it fits a moment, whose day of the week and of the year count. */
    public boolean fits(LocalDateTime moment) {
      int minute = moment.getHour() * 60 + moment.getMinute();
      boolean after = minute >= fromMinute;
      boolean before = minute < toMinute;
      boolean within = fromMinute > toMinute ? after || before : after && before;
      return within
          && days.contains(moment.getDayOfWeek())
          && (season == null || season.holds(moment.toLocalDate()));
    }
  }

  /**
   * A charge for the greatest demand of the billing period: the mean power over an interval of the
   * clock.
   *
   * @param price a kW
   * @param intervalMicros divides a day
   * @param parts 1 for blocks of the clock; more: the interval slides by such a part of itself
   * @param during numbers of the rates in which an interval must begin to count; empty for all
   */
  public record Demand(BigDecimal price, long intervalMicros, int parts, Set<Integer> during) {}

  /**
   * A charge for reactive energy taken (lagging, while importing) beyond a share of the active.
   *
   * @param price a kvarh
   * @param free kvarh a kWh
   */
  public record Reactive(BigDecimal price, BigDecimal free) {}

  /**
   * A charge in per cent of energy and demand for each full step by which the period's mean power
   * factor is below a least one.
   *
   * @param ofDistortionToo the true power factor, kWh over kVAh; else the displacement power
   *     factor, from kWh and kvarh
   * @param least without charge down to here
   * @param percent for each step
   * @param step of power factor
   */
  public record PowerFactor(
      boolean ofDistortionToo, BigDecimal least, BigDecimal percent, BigDecimal step) {}

  /** On all other lines together. */
  public record Tax(String name, BigDecimal percent) {}

  /**
   * How amounts are rounded.
   *
   * @param decimals of the currency
   * @param eachLine every line and the tax; else only the total
   */
  public record Rounding(int decimals, RoundingMode mode, boolean eachLine) {}

  /** Whether it is valid on a day. */
  public boolean isValid(LocalDate day) {
    return !day.isBefore(from) && !day.isAfter(until);
  }

  /** Number of the rate that holds at a moment. */
  public int rate(LocalDateTime moment) {
    for (Time time : times) {
      if (time.fits(moment)) {
        return time.rate();
      }
    }
    throw new IllegalStateException("tariff `" + name + "` has no rate at " + moment);
  }
}
