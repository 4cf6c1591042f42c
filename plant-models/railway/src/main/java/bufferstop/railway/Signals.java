package bufferstop.railway;

import bufferstop.railway.LineData.SignalData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/** Signals beside the track, who sees them and who passes them at danger. */
final class Signals implements Stateful {
  final List<SignalData> data;
  private final Stock stock;
  private final Hazards hazards;
  private final boolean[] clear;

  Signals(List<SignalData> data, Stock stock, Hazards hazards) {
    this.data = data;
    this.stock = stock;
    this.hazards = hazards;
    clear = new boolean[data.size()];
  }

  void set(int n, boolean isClear) {
    clear[n] = isClear;
  }

  boolean isClear(int n) {
    return clear[n];
  }

  /** How far along a way a signal stands; NaN when it is not for trains that way. */
  private double along(int n, int way) {
    SignalData signal = data.get(n);
    boolean applies =
        signal.place().segment() == Track.segment(way)
            && signal.forHigh() == Track.towardsHigh(way);
    return applies ? stock.placement.track.offset(way, signal.place().offsetMetres()) : Double.NaN;
  }

  /** Distance to the next signal at danger on a way beyond {@code from}, m; infinite if none. */
  double toDanger(int way, double from, double travelled) {
    double nearest = Double.POSITIVE_INFINITY;
    for (int n = 0; n < clear.length; n++) {
      double ahead = along(n, way) - from;
      boolean counts = !clear[n] && ahead >= 0 && travelled + ahead <= data.get(n).sighting();
      nearest = counts ? Math.min(nearest, travelled + ahead) : nearest;
    }
    return nearest;
  }

  /** After the trains have moved: looks at the leading end of every train. */
  void watch() {
    if (clear.length == 0) {
      return;
    }
    for (int k = 0; k < stock.count; k++) {
      double metres = stock.moved[k];
      boolean led =
          metres > 0 ? k < stock.count - 1 && stock.coupled[k] : k > 0 && stock.coupled[k - 1];
      if (metres != 0 && !led) {
        watch(stock.who[k], metres * stock.facing[k]);
      }
    }
  }

  private void watch(int i, double forward) {
    Placement placement = stock.placement;
    boolean front = forward > 0;
    int way = front ? placement.frontWay(i) : placement.way(i, 0) ^ 1;
    double to =
        front ? placement.frontAlong(i) : placement.track.length(way) - placement.rearAlong(i);
    pass(way, to - Math.abs(forward), to, i);
    if (to < Math.abs(forward) && placement.ways(i) > 1) {
      int before = front ? placement.way(i, placement.ways(i) - 2) : placement.way(i, 1) ^ 1;
      double length = placement.track.length(before);
      pass(before, length + to - Math.abs(forward), length, i);
    }
  }

  private void pass(int way, double from, double to, int vehicle) {
    for (int n = 0; n < clear.length; n++) {
      double at = along(n, way);
      if (!clear[n] && from < at && at <= to) {
        hazards.passedAtDanger(Math.abs(stock.speed(vehicle)));
      }
    }
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (boolean each : clear) {
      to.writeBoolean(each);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int n = 0; n < clear.length; n++) {
      clear[n] = from.readBoolean();
    }
  }
}
