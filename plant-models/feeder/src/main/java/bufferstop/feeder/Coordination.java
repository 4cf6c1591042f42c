package bufferstop.feeder;

import bufferstop.spi.Problems;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Devices in series: at every current from 1.3 times the setting of the one nearer to the fault up
 * to a bolted three-phase fault just beyond it, the one nearer to the source must begin to operate
 * a grading interval after the other has cleared. Currents are carried over by nominal voltages.
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

  Coordination(
      Tree tree, List<ProtectiveDevice> devices, List<Conductor> conductors, double interval) {
    this.tree = tree;
    this.devices = devices;
    this.conductors = conductors;
    this.interval = interval;
    impedance = new double[2 * tree.size()];
    for (int i = 1; i < tree.size(); i++) {
      Tree.Branch b = tree.branch(i);
      double square = b.ratio() * b.ratio();
      impedance[2 * i] = square * impedance[2 * b.parent()] + b.ohms();
      impedance[2 * i + 1] = square * impedance[2 * b.parent() + 1] + b.reactance();
    }
  }

  /** Bolted three-phase fault at the beginning of a branch, A. */
  double most(int branch) {
    int node = Math.max(1, tree.branch(branch).parent());
    return tree.nominalVolts(node)
        / Math.sqrt(3)
        / Math.sqrt(Phasors.square(impedance, 2 * node))
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

  /** The devices next towards the source, empty when there are none. */
  private List<ProtectiveDevice> upstream(ProtectiveDevice of) {
    int branch = tree.branch(of.branch()).parent();
    while (branch > 0) {
      List<ProtectiveDevice> here = new ArrayList<>();
      for (ProtectiveDevice each : devices) {
        if (each.branch() == branch) {
          here.add(each);
        }
      }
      if (!here.isEmpty()) {
        return here;
      }
      branch = tree.branch(branch).parent();
    }
    return List.of();
  }

  /** Warns of each pair that is too close, and of devices that no fault can operate. */
  void warn(Problems problems) {
    for (ProtectiveDevice each : devices) {
      if (most(each.branch()) <= each.leastAmperes()) {
        blind(each, problems);
      } else {
        for (ProtectiveDevice above : upstream(each)) {
          compare(each, above, problems);
        }
      }
    }
  }

  private void blind(ProtectiveDevice device, Problems problems) {
    if (device.leastAmperes() == Double.POSITIVE_INFINITY) {
      return; // it looks at earth faults, voltage or frequency alone
    }
    problems.warning(
        device.at(),
        device.parameter(),
        device.label() + " sees no phase fault: it picks up at " + amperes(device.leastAmperes()),
        "less than the " + amperes(most(device.branch())) + " of a bolted fault just beyond it",
        "lower its pick-up, or look at its transformers' ratio");
  }

  private void compare(ProtectiveDevice near, ProtectiveDevice above, Problems problems) {
    double low = TRUSTED * near.leastAmperes();
    double high = most(near.branch());
    double worst = Double.POSITIVE_INFINITY;
    double at = 0;
    for (int i = 0; i <= POINTS && low < high; i++) {
      double amperes = low * StrictMath.pow(high / low, i / (double) POINTS);
      double cleared = near.clearingSeconds(amperes);
      double begins = above.operatingSeconds(amperes * carried(near.branch(), above.branch()));
      double gap = begins - cleared;
      if (cleared < Double.POSITIVE_INFINITY && gap < worst) {
        worst = gap;
        at = amperes;
      }
    }
    if (worst < interval) {
      double cleared = near.clearingSeconds(at);
      String gap = worst < 0 ? "operates before it" : "follows it by " + seconds(worst);
      problems.warning(
          above.at(),
          above.parameter(),
          above.label()
              + " "
              + gap
              + ": "
              + near.label()
              + " clears "
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
