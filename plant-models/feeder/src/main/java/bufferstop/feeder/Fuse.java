package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;

/**
 * Fuses, one in each phase of a branch. The melting curve is given by points, straight between them
 * on logarithmic scales; a changing current melts it when the integral of dt / t(I) reaches 1, and
 * below the first point it cools with the time of that point. Clearing adds an arc. [project
 * choice]
 */
final class Fuse implements ProtectiveDevice {
  private final String name;
  private final Settings at;
  private final int branch;
  private final Network network;
  private final Happenings happenings;
  private final double[] logAmperes;
  private final double[] logSeconds;
  private final double least;
  private final double coolSeconds;
  private final double arcSeconds;
  private final int blownEvent;
  private final double[] progress = new double[3];
  private final boolean[] blown = new boolean[3];
  private boolean replaceHeld;

  Fuse(String name, Settings s, int branch, Network network, Happenings happenings) {
    this.name = name;
    this.at = s;
    this.branch = branch;
    this.network = network;
    this.happenings = happenings;
    double[][] points = points(s);
    logAmperes = Arrays.stream(points).mapToDouble(p -> StrictMath.log(p[0])).toArray();
    logSeconds = Arrays.stream(points).mapToDouble(p -> StrictMath.log(p[1])).toArray();
    least = points[0][0];
    coolSeconds = points[0][1];
    arcSeconds = s.number("arcing_time");
    blownEvent = happenings.declare("fuse." + name + ".blown", "A", "fuse " + name + " has blown");
  }

  /** Points of current and time, by rising current; those of the file or a generic shape. */
  static double[][] points(Settings s) {
    double rating = s.number("rating");
    double[][] shape = { // multiples of rating: a generic shape, replace it by the fuse's own
      {1.6, 3600}, {2, 300}, {3, 20}, {4.5, 4}, {7, 0.5}, {10, 0.1}, {16, 0.01}, {30, 0.002}
    };
    if (s.named("curve").isEmpty()) {
      return Arrays.stream(shape)
          .map(p -> new double[] {p[0] * rating, p[1]})
          .toArray(double[][]::new);
    }
    return s.named("curve").values().stream()
        .map(p -> new double[] {p.number("current"), p.number("time")})
        .toArray(double[][]::new);
  }

  /** Melting time at a constant current. */
  double meltingSeconds(double amperes) {
    if (!(amperes >= least)) {
      return Double.POSITIVE_INFINITY;
    }
    double x = StrictMath.log(amperes);
    int i = 1;
    while (i < logAmperes.length - 1 && x > logAmperes[i]) {
      i++;
    }
    double slope = (logSeconds[i] - logSeconds[i - 1]) / (logAmperes[i] - logAmperes[i - 1]);
    return StrictMath.exp(logSeconds[i - 1] + slope * (x - logAmperes[i - 1]));
  }

  void step(double seconds) {
    for (int p = 0; p < 3; p++) {
      double square =
          Phasors.square(network.flow, Phasors.VECTOR * branch + 2 * p)
              + network.spectrum().currentSquares(branch, p);
      if (square >= least * least) {
        progress[p] += seconds / (meltingSeconds(Math.sqrt(square)) + arcSeconds);
        if (progress[p] >= 1 && !blown[p]) {
          blown[p] = true;
          network.open(branch, p);
          happenings.happened(blownEvent, Math.sqrt(square));
        }
      } else if (progress[p] > 0) {
        progress[p] = Math.max(0, progress[p] - seconds / coolSeconds);
      }
    }
  }

  /** New fuses, once for each press. */
  void replace(boolean pressed) {
    if (pressed && !replaceHeld) {
      for (int p = 0; p < 3; p++) {
        if (blown[p]) {
          network.close(branch, p);
        }
        blown[p] = false;
        progress[p] = 0;
      }
    }
    replaceHeld = pressed;
  }

  boolean idle() {
    return progress[0] + progress[1] + progress[2] == 0 && most() < least * least;
  }

  private double most() {
    double most = 0;
    for (int p = 0; p < 3; p++) {
      double square =
          Phasors.square(network.flow, Phasors.VECTOR * branch + 2 * p)
              + network.spectrum().currentSquares(branch, p);
      most = Math.max(most, square);
    }
    return most;
  }

  boolean blown() {
    return blown[0] || blown[1] || blown[2];
  }

  @Override
  public String label() {
    return "fuse " + name;
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
    return of == Current.PHASE ? least : Double.POSITIVE_INFINITY;
  }

  @Override
  public double clearingSeconds(Current of, double amperes) {
    return operatingSeconds(of, amperes) + arcSeconds;
  }

  @Override
  public double operatingSeconds(Current of, double amperes) {
    return of == Current.PHASE ? meltingSeconds(amperes) : Double.POSITIVE_INFINITY;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(replaceHeld);
    for (int p = 0; p < 3; p++) {
      to.writeDouble(progress[p]);
      to.writeBoolean(blown[p]);
    }
  }

  void restore(DataInput from) throws IOException {
    replaceHeld = from.readBoolean();
    for (int p = 0; p < 3; p++) {
      progress[p] = from.readDouble();
      blown[p] = from.readBoolean();
    }
  }
}
