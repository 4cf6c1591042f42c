package bufferstop.feeder;

import bufferstop.feeder.ProtectiveDevice.Current;
import bufferstop.spi.Problems;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Devices in series: at every current from 1.3 times the setting of the one nearer to the fault up
 * to a bolted fault just beyond it, the one nearer to the source must begin to operate a grading
 * interval after the other has cleared. Phase elements are compared with phase elements up to a
 * three-phase fault, earth elements with earth elements up to a fault of one phase to the return
 * conductor; no earth current passes a delta winding. Currents are carried over by nominal
 * voltages.
 */
final class Coordination {
  /** Where curves are trusted to begin, as a multiple of the setting. */
  private static final double TRUSTED = 1.3;

  private static final int POINTS = 60;

  final List<ProtectiveDevice> devices;
  final List<Conductor> conductors;
  private final Tree tree;
  private final double interval;
  private final double[] impedance; // of the source at each node, ohms re and im
  private final double[] zero; // and of the zero sequence

  Coordination(
      Tree tree, List<ProtectiveDevice> devices, List<Conductor> conductors, double interval) {
    this.tree = tree;
    this.devices = devices;
    this.conductors = conductors;
    this.interval = interval;
    impedance = new double[2 * tree.size()];
    zero = new double[2 * tree.size()];
    for (int i = 1; i < tree.size(); i++) {
      Tree.Branch b = tree.branch(i);
      double square = b.ratio() * b.ratio();
      impedance[2 * i] = square * impedance[2 * b.parent()] + b.ohms();
      impedance[2 * i + 1] = square * impedance[2 * b.parent() + 1] + b.reactance();
      double passes = b.coupling() == Tree.Coupling.DELTA ? 0 : square;
      zero[2 * i] = passes * zero[2 * b.parent()] + b.ohms() + 3 * b.returnOhms();
      zero[2 * i + 1] = passes * zero[2 * b.parent() + 1] + b.reactance() + 3 * b.returnReactance();
    }
  }

  /** Bolted fault at the beginning of a branch, A: E / Z1, or 3 E / (2 Z1 + Z0) to earth. */
  double most(Current of, int branch) {
    int node = Math.max(1, tree.branch(branch).parent());
    double re = impedance[2 * node];
    double im = impedance[2 * node + 1];
    if (of == Current.EARTH) {
      re = (2 * re + zero[2 * node]) / 3;
      im = (2 * im + zero[2 * node + 1]) / 3;
    }
    return tree.nominalVolts(node)
        / Math.sqrt(3)
        / Math.sqrt(re * re + im * im)
        * (tree.nominalVolts(node) / tree.nominalVolts(branch)); // on the branch's own side
  }

  /** Current of one branch over the current of another that it feeds. */
  double carried(int from, int to) {
    return tree.nominalVolts(from) / tree.nominalVolts(to);
  }

  /** The lowest voltage any device works at, to which a chart refers its currents. */
  double baseVolts() {
    return devices.stream()
        .mapToDouble(d -> tree.nominalVolts(d.branch()))
        .min()
        .orElse(tree.nominalVolts(1));
  }

  double nominalVolts(int branch) {
    return tree.nominalVolts(branch);
  }

  /** The devices next towards the source that see the current, empty when there are none. */
  private List<ProtectiveDevice> upstream(Current of, ProtectiveDevice from) {
    int below = from.branch();
    int branch = tree.branch(below).parent();
    while (branch > 0 && passes(of, below)) {
      List<ProtectiveDevice> here = new ArrayList<>();
      for (ProtectiveDevice each : devices) {
        if (each.branch() == branch && sees(each, of)) {
          here.add(each);
        }
      }
      if (!here.isEmpty()) {
        return here;
      }
      below = branch;
      branch = tree.branch(branch).parent();
    }
    return List.of();
  }

  private boolean passes(Current of, int branch) {
    return of == Current.PHASE || tree.branch(branch).coupling() != Tree.Coupling.DELTA;
  }

  /** Whether a device has anything that looks at a current. */
  static boolean sees(ProtectiveDevice device, Current of) {
    return device.leastAmperes(of) < Double.POSITIVE_INFINITY;
  }

  /** Warns of each pair that is too close, and of devices that no fault can operate. */
  void warn(Problems problems) {
    for (Current of : Current.values()) {
      for (ProtectiveDevice each : devices) {
        if (!sees(each, of)) {
          continue; // it looks at other currents, voltage or frequency alone
        }
        if (most(of, each.branch()) <= each.leastAmperes(of)) {
          blind(of, each, problems);
        } else {
          for (ProtectiveDevice above : upstream(of, each)) {
            compare(of, each, above, problems);
          }
        }
      }
    }
  }

  private void blind(Current of, ProtectiveDevice device, Problems problems) {
    problems.warning(
        device.at(),
        device.parameter(of),
        device.label()
            + " sees no "
            + of.text
            + ": it picks up at "
            + amperes(device.leastAmperes(of)),
        "less than the "
            + amperes(most(of, device.branch()))
            + " of a "
            + of.bolted
            + " just beyond it",
        "lower its pick-up, or look at its transformers' ratio");
  }

  private void compare(
      Current of, ProtectiveDevice near, ProtectiveDevice above, Problems problems) {
    double low = TRUSTED * near.leastAmperes(of);
    double high = most(of, near.branch());
    double worst = Double.POSITIVE_INFINITY;
    double at = 0;
    for (int i = 0; i <= POINTS && low < high; i++) {
      double amperes = low * StrictMath.pow(high / low, i / (double) POINTS);
      double cleared = near.clearingSeconds(of, amperes);
      double begins = above.operatingSeconds(of, amperes * carried(near.branch(), above.branch()));
      double gap = begins - cleared;
      if (cleared < Double.POSITIVE_INFINITY && gap < worst) {
        worst = gap;
        at = amperes;
      }
    }
    if (worst < interval) {
      double cleared = near.clearingSeconds(of, at);
      String gap = worst < 0 ? "operates before it" : "follows it by " + seconds(worst);
      problems.warning(
          above.at(),
          above.parameter(of),
          above.label()
              + " "
              + gap
              + ": "
              + near.label()
              + " clears "
              + (of == Current.EARTH ? "an earth fault of " : "")
              + amperes(at)
              + " after "
              + seconds(cleared),
          "at least " + seconds(interval) + " between them, grading_interval",
          "raise its time or its pick-up, or make the other faster; real settings are a licensed"
              + " engineer's");
    }
  }

  private static String amperes(double value) {
    return String.format(Locale.ROOT, value < 100 ? "%.2f A" : "%.0f A", value);
  }

  private static String seconds(double value) {
    return String.format(Locale.ROOT, "%.3f s", value);
  }
}
