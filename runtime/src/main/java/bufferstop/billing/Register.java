package bufferstop.billing;

import bufferstop.model.Billing;
import bufferstop.model.Billing.Period;
import java.math.BigInteger;
import java.time.temporal.ChronoUnit;

/**
 * What one register counts in a period; a step over an end of the period counts in proportion to
 * time.
 */
public final class Register {
  private final long fromMicros;
  private final long toMicros;
  private long lastMicros;
  private long last;
  private boolean read;
  private long counted;

  public Register(Billing billing, Period period) {
    fromMicros = billing.start().until(period.from(), ChronoUnit.MICROS);
    toMicros = billing.start().until(period.to(), ChronoUnit.MICROS);
  }

  /**
   * Takes what it shows.
   *
   * @param micros since the project's start, rising
   */
  public void read(long micros, long value) {
    long begin = Math.max(lastMicros, fromMicros);
    long end = Math.min(micros, toMicros);
    if (read && end > begin) {
      counted += share(value - last, end - begin, micros - lastMicros);
    }
    read = true;
    last = value;
    lastMicros = micros;
  }

  /** Part of a whole, rounded towards zero. */
  static long share(long whole, long micros, long of) {
    return micros == of
        ? whole
        : BigInteger.valueOf(whole)
            .multiply(BigInteger.valueOf(micros))
            .divide(BigInteger.valueOf(of))
            .longValueExact();
  }

  public long counted() {
    return counted;
  }
}
