package bufferstop.billing;

import bufferstop.model.Tariff.Demand;
import java.time.LocalDateTime;
import java.util.Set;

/**
 * Mean power over intervals of the clock, in blocks or sliding by a part of the interval. An
 * interval counts when it was metered from its beginning to its end with voltage throughout.
 */
final class DemandWindow {
  private final long partMicros;
  private final long intervalMicros;
  private final Set<Integer> during;
  private final long[] wattHours; // of the last parts
  private final boolean[] flawed; // likewise
  private final int[] rates; // in force as each of them began
  private int next;
  private int filled;
  private long inPart; // micros counted
  private long counted;
  private boolean failed;
  private int rate;
  private int flawedIntervals;
  private Usage.Peak most;

  DemandWindow(Demand demand) {
    intervalMicros = demand.intervalMicros();
    partMicros = intervalMicros / demand.parts();
    during = demand.during();
    wattHours = new long[demand.parts()];
    flawed = new boolean[demand.parts()];
    rates = new int[demand.parts()];
  }

  /** Length of a part; parts begin at whole multiples of it after midnight. */
  long partMicros() {
    return partMicros;
  }

  /**
   * Counts a piece that no end of a part divides.
   *
   * @param microsOfDay when it began
   * @param rate in force
   * @param end when it ended
   */
  void add(
      long energy, long micros, long microsOfDay, boolean failed, int rate, LocalDateTime end) {
    if (inPart == 0) {
      this.rate = rate;
    }
    counted += energy;
    inPart += micros;
    this.failed |= failed;
    if ((microsOfDay + micros) % partMicros == 0) {
      endPart(end);
    }
  }

  private void endPart(LocalDateTime end) {
    boolean whole = inPart == partMicros;
    wattHours[next] = counted;
    flawed[next] = failed;
    rates[next] = rate;
    next = (next + 1) % wattHours.length;
    filled = whole ? Math.min(filled + 1, wattHours.length) : 0;
    counted = 0;
    inPart = 0;
    failed = false;
    if (filled == wattHours.length) {
      endInterval(end);
    }
  }

  private void endInterval(LocalDateTime end) {
    long sum = 0;
    boolean sound = true;
    for (int i = 0; i < wattHours.length; i++) {
      sum += wattHours[i];
      sound &= !flawed[i];
    }
    boolean wanted = during.isEmpty() || during.contains(rates[next]); // its oldest part
    flawedIntervals += sound || !wanted ? 0 : 1;
    if (sound && wanted && (most == null || sum > most.wattHours())) {
      most = new Usage.Peak(sum, intervalMicros, end);
    }
  }

  /** Null while no interval has counted. */
  Usage.Peak most() {
    return most;
  }

  int flawedIntervals() {
    return flawedIntervals;
  }
}
