package bufferstop.billing;

import bufferstop.model.Billing;
import bufferstop.model.Billing.Consumer;
import bufferstop.model.Billing.Period;
import bufferstop.model.Tariff;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoField;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;

/**
 * Counts what one meter shows through one period: the door of this room with {@link Bill}. What
 * came between two readings belongs to the rates, days and intervals it fell into, in proportion to
 * time, in whole units; what is left of the division belongs to the last of them.
 */
public final class Account {
  private static final long MINUTE_MICROS = 60_000_000;
  private static final long DAY_MICROS = 1440 * MINUTE_MICROS;

  private final Consumer consumer;
  private final Period period;
  private final LocalDateTime start;
  private final long fromMicros;
  private final long toMicros;
  private final List<Counter> counters = new ArrayList<>();
  private Reading last;
  private long lastMicros;

  /**
   * @param period whose every day has a tariff of the consumer
   */
  public Account(Billing billing, Consumer consumer, Period period) {
    this.consumer = consumer;
    this.period = period;
    start = billing.start();
    fromMicros = micros(period.from());
    toMicros = micros(period.to());
  }

  private long micros(LocalDateTime moment) {
    return start.until(moment, ChronoUnit.MICROS);
  }

  /**
   * Takes what the meter shows; what came before the first reading or outside the period does not
   * count.
   *
   * @param micros since the project's start, rising from reading to reading
   */
  public void read(long micros, Reading reading) {
    if (last != null && micros > fromMicros && lastMicros < toMicros) {
      count(micros, reading);
    }
    last = reading;
    lastMicros = micros;
  }

  /** What came since the last reading, cut where rates, days and intervals change. */
  private void count(long micros, Reading reading) {
    long[] left = {
      reading.imported() - last.imported(),
      reading.exported() - last.exported(),
      reading.reactive() - last.reactive(),
      reading.apparent() - last.apparent()
    };
    boolean failed = reading.powerFailed() || last.powerFailed();
    long at = lastMicros;
    if (at < fromMicros) {
      take(left, fromMicros - at, micros - at);
      at = fromMicros;
    }
    long end = Math.min(micros, toMicros);
    while (at < end) {
      LocalDateTime moment = start.plus(at, ChronoUnit.MICROS);
      Counter counter = counter(moment.toLocalDate());
      long next = Math.min(end, at + counter.untilChange(moment));
      counter.add(take(left, next - at, micros - at), moment, next - at, failed);
      at = next;
    }
  }

  /** The share of what is left that falls into the first {@code micros} of {@code of}. */
  private static long[] take(long[] left, long micros, long of) {
    long[] share = new long[left.length];
    for (int i = 0; i < left.length; i++) {
      share[i] = Register.share(left[i], micros, of);
      left[i] -= share[i];
    }
    return share;
  }

  private Counter counter(LocalDate day) {
    Counter now = counters.isEmpty() ? null : counters.get(counters.size() - 1);
    if (now == null || !now.tariff.isValid(day)) {
      now =
          new Counter(
              consumer.tariffs().stream().filter(t -> t.isValid(day)).findFirst().orElseThrow());
      counters.add(now);
    }
    return now;
  }

  /** What it came to. */
  public Usage usage() {
    return new Usage(consumer, period, counters.stream().map(Counter::part).toList());
  }

  /** One tariff's part of the period. */
  private static final class Counter {
    private final Tariff tariff;
    private final long[] wattHours;
    private final DemandWindow demand; // null when the tariff has no charge for it
    private long exported;
    private long reactive;
    private long apparent;
    private long days;
    private LocalDate lastDay;

    Counter(Tariff tariff) {
      this.tariff = tariff;
      wattHours = new long[tariff.rates().size()];
      demand = tariff.demand() == null ? null : new DemandWindow(tariff.demand());
    }

    /** Microseconds until a rate, a day or a part of an interval may end; at least 1. */
    private long untilChange(LocalDateTime moment) {
      long ofDay = moment.getLong(ChronoField.MICRO_OF_DAY);
      long next = DAY_MICROS;
      for (Tariff.Time time : tariff.times()) {
        for (int minute : new int[] {time.fromMinute(), time.toMinute()}) {
          long edge = minute * MINUTE_MICROS;
          next = edge > ofDay ? Math.min(next, edge) : next;
        }
      }
      if (demand != null) {
        next = Math.min(next, (ofDay / demand.partMicros() + 1) * demand.partMicros());
      }
      return next - ofDay;
    }

    private void add(long[] share, LocalDateTime moment, long micros, boolean failed) {
      if (!moment.toLocalDate().equals(lastDay)) {
        lastDay = moment.toLocalDate();
        days++;
      }
      int rate = tariff.rate(moment);
      wattHours[rate] += share[0];
      exported += share[1];
      reactive += share[2];
      apparent += share[3];
      if (demand != null) {
        long ofDay = moment.getLong(ChronoField.MICRO_OF_DAY);
        LocalDateTime end = moment.plus(micros, ChronoUnit.MICROS);
        demand.add(share[0], micros, ofDay, failed, rate, end);
      }
    }

    private Usage.Part part() {
      List<Long> byRate = new ArrayList<>();
      for (long each : wattHours) {
        byRate.add(each);
      }
      return new Usage.Part(
          tariff,
          days,
          List.copyOf(byRate),
          exported,
          reactive,
          apparent,
          demand == null ? null : demand.most(),
          demand == null ? 0 : demand.flawedIntervals());
    }
  }
}
