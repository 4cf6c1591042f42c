package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;

/**
 * Every axle of every vehicle, evenly spread over its wheelbase: what it conducts from rail to rail
 * in which block, and which counting head it passes.
 */
final class Axles implements Stateful {
  private final Stock stock;
  private final Track track;
  private final int[] vehicle;
  private final double[] fromMiddle;
  private final double[] siemens;
  private final double[] conductance; // by block
  private final int[] segment;
  private final double[] offset;
  private final Counter[][] counters; // by segment, in order
  private final boolean needed;

  Axles(Stock stock, int blocks, List<Counter> counters) {
    this.stock = stock;
    track = stock.placement.track;
    int count = stock.data.stream().mapToInt(VehicleData::axles).sum();
    vehicle = new int[count];
    fromMiddle = new double[count];
    siemens = new double[count];
    segment = new int[count];
    offset = new double[count];
    conductance = new double[blocks];
    this.counters = new Counter[track.segments][];
    for (int s = 0; s < track.segments; s++) {
      int on = s;
      this.counters[s] =
          counters.stream()
              .filter(c -> c.data.place().segment() == on)
              .sorted((a, b) -> Double.compare(a.at(), b.at()))
              .toArray(Counter[]::new);
    }
    int n = 0;
    for (int i = 0; i < stock.count; i++) {
      VehicleData data = stock.data.get(i);
      for (int axle = 0; axle < data.axles(); axle++) {
        vehicle[n] = i;
        double share = data.axles() == 1 ? 0.5 : axle / (data.axles() - 1.0);
        fromMiddle[n] = (share - 0.5) * data.wheelbaseMetres();
        siemens[n++] = 1 / data.axleOhms();
      }
    }
    needed = blocks > 0 || !counters.isEmpty();
  }

  void start() {
    take(false, 0);
  }

  void step(long nowMicros) {
    take(true, nowMicros);
  }

  private void take(boolean count, long nowMicros) {
    if (!needed) {
      return;
    }
    Arrays.fill(conductance, 0);
    for (int n = 0; n < vehicle.length; n++) {
      int i = vehicle[n];
      stock.placement.locate(i, fromMiddle[n]);
      int now = stock.placement.foundSegment();
      double at = stock.placement.foundOffset();
      if (count) {
        pass(n, now, at, stock.placement.foundWay(), nowMicros);
      }
      segment[n] = now;
      offset[n] = at;
      int block = track.data.segments().get(now).block();
      if (block >= 0 && !stock.derailed[i]) {
        conductance[block] += siemens[n];
      }
    }
  }

  private void pass(int n, int now, double at, int way, long nowMicros) {
    if (now == segment[n]) {
      pass(now, offset[n], at, nowMicros);
      return;
    }
    boolean ahead = stock.v[stock.at[vehicle[n]]] * stock.facing[stock.at[vehicle[n]]] > 0;
    boolean entersLow = Track.towardsHigh(way) == ahead;
    pass(now, entersLow ? 0 : track.length[now], at, nowMicros);
    double before = offset[n];
    boolean leftHigh = before > track.length[segment[n]] / 2;
    pass(segment[n], before, leftHigh ? track.length[segment[n]] : 0, nowMicros);
  }

  private void pass(int on, double from, double to, long nowMicros) {
    for (Counter counter : counters[on]) {
      if (from < counter.at() && counter.at() <= to) {
        counter.count(true, nowMicros);
      } else if (to < counter.at() && counter.at() <= from) {
        counter.count(false, nowMicros);
      }
    }
  }

  /** What all axles in a block conduct together, S. */
  double conductance(int block) {
    return conductance[block];
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (int n = 0; n < segment.length; n++) {
      to.writeInt(segment[n]);
      to.writeDouble(offset[n]);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int n = 0; n < segment.length; n++) {
      segment[n] = from.readInt();
      offset[n] = from.readDouble();
    }
  }
}
