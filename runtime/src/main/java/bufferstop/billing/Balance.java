package bufferstop.billing;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/**
 * What the source gave beside what the meters counted and the network lost.
 *
 * @param supplied Wh
 * @param lost Wh
 * @param tolerance Wh
 */
public record Balance(long supplied, long lost, List<Metered> meters, long tolerance) {
  private static final BigDecimal HUNDRED = new BigDecimal(100);

  /**
   * One meter's share.
   *
   * @param imported Wh
   * @param exported Wh
   * @param billed whether somebody pays for it
   */
  public record Metered(String name, long imported, long exported, boolean billed) {
    /** Wh taken from the network. */
    public long net() {
      return imported - exported;
    }
  }

  /**
   * The balance with its tolerance.
   *
   * @param percent of what is supplied
   */
  public static Balance of(long supplied, long lost, List<Metered> meters, BigDecimal percent) {
    BigDecimal tolerance =
        BigDecimal.valueOf(supplied).abs().multiply(percent).divide(HUNDRED, 0, RoundingMode.UP);
    return new Balance(supplied, lost, List.copyOf(meters), tolerance.longValue());
  }

  /** Wh that were supplied and are neither lost nor metered. */
  public long difference() {
    return supplied - lost - meters.stream().mapToLong(Metered::net).sum();
  }

  /** Whether the difference is within the tolerance. */
  public boolean closes() {
    return Math.abs(difference()) <= tolerance;
  }

  /** What is suspicious, a sentence each; empty when nothing is. */
  public List<String> warnings() {
    List<Metered> giving = meters.stream().filter(m -> m.net() < 0).toList();
    List<String> warnings = new ArrayList<>();
    long turned = difference() + 2 * giving.stream().mapToLong(Metered::net).sum();
    boolean reversed = !closes() && !giving.isEmpty() && Math.abs(turned) <= tolerance;
    for (Metered meter : giving) {
      String counts = "`" + meter.name() + "` counts " + kilo(-meter.net()) + " kWh as exported";
      warnings.add(
          reversed
              ? counts
                  + ", and counted as imported they would close the balance: its instrument"
                  + " transformer is connected the wrong way round, its bill is worthless"
              : counts);
    }
    if (!closes() && !reversed) {
      warnings.add(
          "the balance is off by "
              + kilo(difference())
              + " kWh, more than "
              + kilo(tolerance)
              + " kWh: something is not metered, or a meter counts wrongly");
    }
    return List.copyOf(warnings);
  }

  /** In kilowatt hours, three decimals. */
  public static String kilo(long wattHours) {
    return BigDecimal.valueOf(wattHours, 3).toPlainString();
  }
}
