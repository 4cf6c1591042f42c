package bufferstop.billing;

import bufferstop.model.Billing.Consumer;
import bufferstop.model.Billing.Period;
import bufferstop.model.Tariff;
import java.time.LocalDateTime;
import java.util.List;

/**
 * What a consumer's meter counted in a period.
 *
 * @param parts one for each tariff that was in force, in the order of their days
 */
public record Usage(Consumer consumer, Period period, List<Part> parts) {

  /**
   * What was counted while one tariff was in force.
   *
   * @param days begun in it
   * @param wattHours imported, by number of the rate
   * @param exported Wh
   * @param reactive varh
   * @param apparent VAh
   * @param demand its greatest demand; null where no whole interval came
   * @param flawed intervals that did not count because the power failed in them
   */
  public record Part(
      Tariff tariff,
      long days,
      List<Long> wattHours,
      long exported,
      long reactive,
      long apparent,
      Peak demand,
      int flawed) {

    /** Wh imported at all rates. */
    public long imported() {
      return wattHours.stream().mapToLong(Long::longValue).sum();
    }
  }

  /**
   * The greatest demand.
   *
   * @param wattHours of its interval
   * @param intervalMicros its length
   * @param end when it ended
   */
  public record Peak(long wattHours, long intervalMicros, LocalDateTime end) {}

  /** Days of the whole period. */
  public long days() {
    return parts.stream().mapToLong(Part::days).sum();
  }

  /** Wh imported in the whole period. */
  public long imported() {
    return parts.stream().mapToLong(Part::imported).sum();
  }
}
