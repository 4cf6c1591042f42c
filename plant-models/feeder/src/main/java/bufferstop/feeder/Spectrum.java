package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;

/**
 * Harmonics: rectifiers give currents in proportion to their fundamental, the network answers by
 * its impedances at each order, the source has none of its own. Quiet without rectifiers.
 */
final class Spectrum {
  private final List<Load> loads;
  private final List<LineFault> faults;
  private final int[] orders;
  private final Ladder[] ladders;
  private final double[][] v;
  private final double[][] flow;
  private final double[] injected;
  private final double[] drawn;
  private final double[] noEmf = new double[Phasors.VECTOR];

  Spectrum(Tree tree, List<Load> loads, List<LineFault> faults) {
    this.loads = loads;
    this.faults = faults;
    TreeSet<Integer> all = new TreeSet<>();
    loads.forEach(l -> l.data.spectrum().forEach(h -> all.add(h.order())));
    orders = all.stream().mapToInt(Integer::intValue).toArray();
    ladders = new Ladder[orders.length];
    int length = Phasors.VECTOR * tree.size();
    v = new double[orders.length][length];
    flow = new double[orders.length][length];
    for (int k = 0; k < orders.length; k++) {
      ladders[k] = new Ladder(tree, orders[k]);
    }
    injected = new double[length];
    drawn = new double[length];
  }

  int count() {
    return orders.length;
  }

  int order(int k) {
    return orders[k];
  }

  /** Node voltages of the k-th harmonic. */
  double[] volts(int k) {
    return v[k];
  }

  /** Branch currents of the k-th harmonic. */
  double[] flow(int k) {
    return flow[k];
  }

  /** Makes the equations of every order anew. */
  void factor(Network network) {
    for (int k = 0; k < orders.length; k++) {
      network.prepare(ladders[k]);
      for (int i = 0; i < loads.size(); i++) {
        loads.get(i).connect(ladders[k]);
      }
      for (int i = 0; i < faults.size(); i++) {
        faults.get(i).connect(ladders[k]);
      }
      ladders[k].factor();
    }
  }

  /**
   * Solves every order.
   *
   * @param fundamental node voltages
   */
  void refresh(double[] fundamental) {
    for (int k = 0; k < orders.length; k++) {
      Arrays.fill(injected, 0);
      for (int i = 0; i < loads.size(); i++) {
        Load load = loads.get(i);
        for (int h = 0; h < load.data.spectrum().size(); h++) {
          if (load.data.order(h) == orders[k]) {
            load.distort(h, fundamental, injected);
          }
        }
      }
      ladders[k].solve(noEmf, injected, v[k]);
      for (int i = 0; i < injected.length; i++) {
        drawn[i] = -injected[i];
      }
      ladders[k].addShunts(v[k], drawn);
      ladders[k].flows(drawn, flow[k]);
    }
  }

  /** Sum of the squares of a phasor over all harmonics. */
  double squares(double[][] of, int at) {
    double sum = 0;
    for (int k = 0; k < orders.length; k++) {
      sum += Phasors.square(of[k], at);
    }
    return sum;
  }

  /** Sum of squares of the harmonic currents of a branch's phase. */
  double currentSquares(int branch, int phase) {
    return squares(flow, Phasors.VECTOR * branch + 2 * phase);
  }

  /** Sum of squares of the harmonic voltages of a node's phase. */
  double voltSquares(int node, int phase) {
    return squares(v, Phasors.VECTOR * node + 2 * phase);
  }

  void save(DataOutput to) throws IOException {
    for (int k = 0; k < orders.length; k++) {
      for (int i = 0; i < v[k].length; i++) {
        to.writeDouble(v[k][i]);
        to.writeDouble(flow[k][i]);
      }
    }
  }

  void restore(DataInput from) throws IOException {
    for (int k = 0; k < orders.length; k++) {
      for (int i = 0; i < v[k].length; i++) {
        v[k][i] = from.readDouble();
        flow[k][i] = from.readDouble();
      }
    }
  }
}
