package bufferstop.model;

import java.math.BigDecimal;
import java.time.LocalDateTime;
import java.util.List;

/**
 * Who pays for what a project's meters count. All times are local ones without a zone; there is no
 * daylight saving.
 *
 * @param start local date and time at logical time zero
 * @param consumers each with its meter
 * @param unbilled further meters that the energy balance needs
 * @param supplied name of a value, Wh: energy given to the network; null for no balance
 * @param lost name of a value, Wh: energy lost in the network; null for none
 * @param tolerancePercent of what is supplied that the balance may be off
 */
public record Billing(
    LocalDateTime start,
    List<Consumer> consumers,
    List<Name> unbilled,
    Name supplied,
    Name lost,
    BigDecimal tolerancePercent,
    List<Period> periods) {

  /**
   * One who pays.
   *
   * @param meter head of the names of its values, {@code works.meter.cottages}
   * @param tariffs of which one is valid on each day of every period
   */
  public record Consumer(String name, String text, Name meter, List<Tariff> tariffs) {}

  /**
   * A stretch of time to be billed.
   *
   * @param from beginning
   * @param to end, not included
   */
  public record Period(String name, LocalDateTime from, LocalDateTime to, Position position) {}
}
