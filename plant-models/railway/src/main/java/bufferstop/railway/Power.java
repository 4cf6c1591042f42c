package bufferstop.railway;

import bufferstop.spi.SplitMix64;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/**
 * What each locomotive picks up: its first and last axle touch the rails, and the better supply of
 * the two counts. A dirty rail takes the contact away now and then.
 */
final class Power implements Stateful {
  private static final double MEAN_LOSS_SECONDS =
      0.08; // of contact on a dirty rail, project choice

  private final Stock stock;
  private final List<Feed> feeds;
  private final List<Drive> drives;
  private final SplitMix64[] chance;
  private final boolean[] lost;
  private final Feed[] feedOf;
  private final Happenings happenings;
  private double dirt;

  Power(Stock stock, List<Feed> feeds, List<Drive> drives, Happenings happenings, long seed) {
    this.stock = stock;
    this.feeds = feeds;
    this.drives = drives;
    this.happenings = happenings;
    chance = new SplitMix64[drives.size()];
    lost = new boolean[drives.size()];
    feedOf = new Feed[drives.size()];
    for (int n = 0; n < chance.length; n++) {
      chance[n] = new SplitMix64(seed + n);
    }
  }

  /** Fault: wheels have no contact for this share of the time. */
  void soil(double share) {
    dirt = share;
  }

  /** Prepares every drive for the coming step. */
  void prepare(double seconds, double adhesionShare) {
    for (int n = 0; n < chance.length; n++) {
      Drive drive = drives.get(n);
      int i = drive.vehicle;
      int along = stock.facing[stock.at[i]];
      double half = stock.data.get(i).wheelbaseMetres() / 2;
      Feed front = under(i, half);
      Feed rear = under(i, -half);
      boolean frontBetter =
          front != null
              && (rear == null || Math.abs(front.trackVolts()) >= Math.abs(rear.trackVolts()));
      Feed best = frontBetter ? front : rear;
      lose(n, seconds);
      feedOf[n] = lost[n] || stock.derailed[i] ? null : best;
      int high = Track.towardsHigh(stock.placement.foundWay()) ? along : -along;
      int before = state(drive);
      drive.prepare(feedOf[n], along, high, seconds);
      if (state(drive) != before) {
        happenings.happened(Happening.REVERSER_STEPPED, state(drive));
      }
      drive.adhesionNewtons =
          drive.coefficient(stock.v[stock.at[i]])
              * drive.loco.drivenShare()
              * stock.kg(stock.at[i])
              * Stock.GRAVITY
              * adhesionShare;
    }
  }

  private static int state(Drive drive) {
    boolean steps = drive instanceof SeriesDrive series && series.reverser() != null;
    return steps ? ((SeriesDrive) drive).reverser().state() : 0;
  }

  private Feed under(int i, double fromMiddle) {
    stock.placement.locate(i, fromMiddle);
    int feed = stock.placement.track.data.segments().get(stock.placement.foundSegment()).feed();
    return feed < 0 ? null : feeds.get(feed);
  }

  private void lose(int n, double seconds) {
    if (dirt <= 0) {
      lost[n] = false;
    } else if (lost[n]) {
      lost[n] = chance[n].nextDouble() >= seconds / MEAN_LOSS_SECONDS;
    } else {
      double often = dirt / Math.max(1e-9, 1 - dirt) * seconds / MEAN_LOSS_SECONDS;
      lost[n] = chance[n].nextDouble() < often;
    }
  }

  /** Adds up what was drawn, after the trains have moved. */
  void meter() {
    for (int n = 0; n < feeds.size(); n++) {
      feeds.get(n).beginStep();
    }
    for (int n = 0; n < feedOf.length; n++) {
      if (feedOf[n] != null) {
        feedOf[n].draw(drives.get(n).drawn());
      }
    }
  }

  /** Voltage at a locomotive's motor, V. */
  double volts(int n) {
    return feedOf[n] == null ? 0 : feedOf[n].trackVolts();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(dirt);
    for (int n = 0; n < lost.length; n++) {
      to.writeBoolean(lost[n]);
      chance[n].save(to);
      to.writeInt(feedOf[n] == null ? -1 : feeds.indexOf(feedOf[n]));
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    dirt = from.readDouble();
    for (int n = 0; n < lost.length; n++) {
      lost[n] = from.readBoolean();
      chance[n].restore(from);
      int feed = from.readInt();
      feedOf[n] = feed < 0 ? null : feeds.get(feed);
    }
  }
}
