package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Heat in the conductors of a line: the integral of the square of the current since they were cold,
 * A s; damage beyond (k S)^2, melting beyond (k_melt S)^2. With a continuous current given, only
 * what exceeds it heats and what it exceeds cools. [adiabatic formula: IEC 60949 as the reference
 * quotes it; counting and cooling: project choices]
 */
final class Conductor {
  private final int branch;
  private final Network network;
  private final Happenings happenings;
  private final double damageLimit;
  private final double meltLimit;
  private final double continuous; // square of it, A^2
  private final int damagedEvent;
  private final int meltedEvent;
  private final double[] heat = new double[3];
  private boolean damaged;
  private final boolean[] melted = new boolean[3];

  final String name;

  Conductor(String name, Settings line, int branch, Network network, Happenings happenings) {
    this.name = name;
    this.branch = branch;
    this.network = network;
    this.happenings = happenings;
    double area = line.number("conductor_area");
    damageLimit = square(area * line.number("damage_k"));
    meltLimit = square(area * line.number("melting_k"));
    continuous = square(line.number("continuous_current"));
    damagedEvent =
        happenings.declare(
            "line." + name + ".damaged",
            "A2s",
            "conductor of line " + name + " is damaged by heat");
    meltedEvent =
        happenings.declare(
            "line." + name + ".melted", "A2s", "conductor of line " + name + " melted");
  }

  private static double square(double x) {
    return x * x;
  }

  /** One step; returns whether a conductor melted in it. */
  void step(Angle angle, double seconds) {
    for (int p = 0; p < 3; p++) {
      double square = network.spectrum().currentSquares(branch, p);
      if (network.dc(branch, p) != 0) {
        square += square(network.sample(branch, p, angle));
      } else {
        square += Phasors.square(network.flow, Phasors.VECTOR * branch + 2 * p);
      }
      heat[p] = Math.max(0, heat[p] + (square - continuous) * seconds);
      if (heat[p] > damageLimit) {
        overheat(p);
      }
    }
  }

  private void overheat(int p) {
    if (!damaged) {
      damaged = true;
      happenings.happened(damagedEvent, heat[p]);
    }
    if (heat[p] > meltLimit && !melted[p]) {
      melted[p] = true;
      network.open(branch, p);
      happenings.happened(meltedEvent, heat[p]);
    }
  }

  /** Nothing heats it and it has cooled down. */
  boolean idle() {
    if (heat[0] + heat[1] + heat[2] > 0) {
      return false;
    }
    for (int p = 0; p < 3; p++) {
      if (Phasors.square(network.flow, Phasors.VECTOR * branch + 2 * p)
              + network.spectrum().currentSquares(branch, p)
          > continuous) {
        return false;
      }
    }
    return true;
  }

  boolean damaged() {
    return damaged;
  }

  boolean broken() {
    return melted[0] || melted[1] || melted[2];
  }

  /** Greatest heat of the three as a share of the damage limit. */
  double share() {
    return Math.max(heat[0], Math.max(heat[1], heat[2])) / damageLimit;
  }

  int branch() {
    return branch;
  }

  /** A^2 s that damage it. */
  double damageLimit() {
    return damageLimit;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(damaged);
    for (int p = 0; p < 3; p++) {
      to.writeDouble(heat[p]);
      to.writeBoolean(melted[p]);
    }
  }

  void restore(DataInput from) throws IOException {
    damaged = from.readBoolean();
    for (int p = 0; p < 3; p++) {
      heat[p] = from.readDouble();
      melted[p] = from.readBoolean();
    }
  }
}
