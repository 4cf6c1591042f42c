package bufferstop.feeder;

import java.util.ArrayList;
import java.util.List;

/**
 * The network's fixed shape: nodes in an order in which every one comes after the node that feeds
 * it. Node 0 is the source's inner voltage; branch i feeds node i from its parent.
 */
final class Tree {

  /** How a branch carries voltage over; a current goes back by the transposed matrix. */
  enum Coupling {
    /** The same voltage on both sides. */
    LINE,
    /** Star to star, each phase by the ratio. */
    STAR,
    /** Delta to star: a phase of the secondary sees two lines of the primary. */
    DELTA
  }

  /**
   * One branch, its impedances in ohms seen from its far end.
   *
   * @param parent number of the node that feeds it
   * @param returnOhms resistance of the return conductor, which carries the sum of the phases
   * @param ratio far side over near side, line to line, without load
   */
  record Branch(
      String name,
      int parent,
      String node,
      double ohms,
      double reactance,
      double returnOhms,
      double returnReactance,
      Coupling coupling,
      double ratio) {}

  private final List<Branch> branches = new ArrayList<>();
  private final List<Double> nominal = new ArrayList<>(); // line to line, V

  /** A tree of node 0 alone. */
  Tree(double nominalVolts) {
    branches.add(null);
    nominal.add(nominalVolts);
  }

  /** Adds a branch and its node; returns their number. */
  int add(Branch branch) {
    branches.add(branch);
    nominal.add(nominal.get(branch.parent()) * branch.ratio());
    return branches.size() - 1;
  }

  int size() {
    return branches.size();
  }

  Branch branch(int node) {
    return branches.get(node);
  }

  /** Nominal voltage line to line in V. */
  double nominalVolts(int node) {
    return nominal.get(node);
  }

  /** Number of a node by its name, -1 when there is none. */
  int node(String name) {
    for (int i = 1; i < branches.size(); i++) {
      if (branches.get(i).node().equals(name)) {
        return i;
      }
    }
    return -1;
  }

  /** Number of a branch by its name, -1 when there is none. */
  int named(String branch) {
    for (int i = 1; i < branches.size(); i++) {
      if (branches.get(i).name().equals(branch)) {
        return i;
      }
    }
    return -1;
  }

  /** The real 3 x 3 matrix from the near side's voltages to the far side's; null for a line. */
  double[] matrix(int node) {
    Branch b = branch(node);
    double k = b.ratio();
    double l = k / Math.sqrt(3);
    return switch (b.coupling()) {
      case LINE -> null;
      case STAR -> new double[] {k, 0, 0, 0, k, 0, 0, 0, k};
      case DELTA -> new double[] {l, -l, 0, 0, l, -l, -l, 0, l};
    };
  }
}
