package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A miniature circuit-breaker that opens all poles together. Instantaneous release: a threshold
 * drawn once within the band of its type, B 3 to 5, C 5 to 10, D 10 to 20 times rated current [IEC
 * 60898-1, seen second-hand]. Thermal release: the integral of (I / In)^2 - 1.13^2, so that it
 * never trips at 1.13 In, and at 2.55 In in the middle of 1 to 60 s (120 s above 32 A) [times from
 * memory; integral: project choice].
 */
final class MiniatureBreaker implements ProtectiveDevice {
  private static final double NON_TRIPPING = 1.13 * 1.13;
  private static final double TEST = 2.55 * 2.55;
  private static final double INSTANT_SECONDS = 0.01;

  private final String name;
  private final Settings at;
  private final int branch;
  private final Network network;
  private final Happenings happenings;
  private final double rating;
  private final double bandLow;
  private final double bandHigh;
  private final double threshold; // multiple of rating
  private final double heatLimit;
  private final int trippedEvent;
  private double heat;
  private double instant; // seconds above the threshold
  private boolean open;
  private boolean closeHeld;
  private boolean openHeld;

  MiniatureBreaker(
      String name, Settings s, int branch, Network network, Happenings happenings, double draw) {
    this.name = name;
    this.at = s;
    this.branch = branch;
    this.network = network;
    this.happenings = happenings;
    rating = s.number("rating");
    bandLow = s.text("type").equals("b") ? 3 : s.text("type").equals("c") ? 5 : 10;
    bandHigh = bandLow == 3 ? 5 : 2 * bandLow;
    threshold = bandLow + draw * (bandHigh - bandLow);
    heatLimit = (rating > 32 ? 60.5 : 30.5) * (TEST - NON_TRIPPING);
    trippedEvent = happenings.declare("mcb." + name + ".tripped", "A", "mcb " + name + " tripped");
  }

  private double most() {
    double most = 0;
    for (int p = 0; p < 3; p++) {
      double square =
          Phasors.square(network.flow, Phasors.VECTOR * branch + 2 * p)
              + network.spectrum().currentSquares(branch, p);
      most = Math.max(most, square);
    }
    return most / (rating * rating);
  }

  void step(double seconds) {
    double square = most();
    heat = Math.max(0, heat + (square - NON_TRIPPING) * seconds);
    instant = square > threshold * threshold ? instant + seconds : 0;
    if (!open && (heat >= heatLimit || instant >= INSTANT_SECONDS)) {
      set(true);
      happenings.happened(trippedEvent, rating * Math.sqrt(square));
    }
  }

  private void set(boolean open) {
    if (open != this.open) {
      this.open = open;
      for (int p = 0; p < 3; p++) {
        if (open) {
          network.open(branch, p);
        } else {
          network.close(branch, p);
        }
      }
    }
  }

  /** Its lever, by rising commands; it does not close onto its own heat. */
  void command(boolean close, boolean open) {
    if (open && !openHeld) {
      set(true);
    } else if (close && !closeHeld && heat < heatLimit / 2) {
      set(false);
    }
    closeHeld = close;
    openHeld = open;
  }

  boolean idle() {
    return heat == 0 && most() < NON_TRIPPING;
  }

  boolean closed() {
    return !open;
  }

  double threshold() {
    return threshold;
  }

  @Override
  public String label() {
    return "mcb " + name;
  }

  @Override
  public Settings at() {
    return at;
  }

  @Override
  public String parameter(Current of) {
    return "rating";
  }

  @Override
  public int branch() {
    return branch;
  }

  @Override
  public double leastAmperes(Current of) {
    return of == Current.PHASE ? rating * 1.45 : Double.POSITIVE_INFINITY;
  }

  /** By the upper limit of its band. */
  @Override
  public double clearingSeconds(Current of, double amperes) {
    return of == Current.PHASE ? seconds(amperes, bandHigh) : Double.POSITIVE_INFINITY;
  }

  /** By the lower limit of its band. */
  @Override
  public double operatingSeconds(Current of, double amperes) {
    return of == Current.PHASE ? seconds(amperes, bandLow) : Double.POSITIVE_INFINITY;
  }

  private double seconds(double amperes, double instantAt) {
    double square = amperes * amperes / (rating * rating);
    if (square > instantAt * instantAt) {
      return INSTANT_SECONDS;
    }
    return square > NON_TRIPPING ? heatLimit / (square - NON_TRIPPING) : Double.POSITIVE_INFINITY;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(heat);
    to.writeDouble(instant);
    to.writeBoolean(open);
    to.writeBoolean(closeHeld);
    to.writeBoolean(openHeld);
  }

  void restore(DataInput from) throws IOException {
    heat = from.readDouble();
    instant = from.readDouble();
    open = from.readBoolean();
    closeHeld = from.readBoolean();
    openHeld = from.readBoolean();
  }
}
