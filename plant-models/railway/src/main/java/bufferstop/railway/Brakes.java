package bufferstop.railway;

import bufferstop.railway.LineData.BrakesData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Brakes of all vehicles. A locomotive works those of every vehicle coupled to it; with automatic
 * brakes a vehicle parted from every locomotive brakes by itself. The force builds up and falls
 * evenly and is never more than the rail can take (reference F2.3).
 */
final class Brakes implements Stateful {
  private final BrakesData data; // null: no vehicle brakes
  private final double adhesion;
  private final double[] limitNewtons;
  private final double[] applied; // 0 to 1, by vehicle
  private final double[] wanted;
  private double weakness = 1;
  private double adhesionShare = 1;

  Brakes(LineData line) {
    data = line.brakes();
    int count = line.vehicles().size();
    adhesion = data == null ? 0 : data.adhesion();
    limitNewtons = new double[count];
    applied = new double[count];
    wanted = new double[count];
    for (int i = 0; i < count; i++) {
      limitNewtons[i] = line.vehicles().get(i).brakeNewtons();
    }
  }

  /** Fault: only this share of the force is there. */
  void weaken(double share) {
    weakness = share;
  }

  void setAdhesionShare(double share) {
    adhesionShare = share;
  }

  /** Says what a locomotive's brake handle asks for, 0 to 1. */
  void ask(int vehicle, double share) {
    wanted[vehicle] = Math.max(0, Math.min(1, share));
  }

  /** Carries what was asked along every train and lets the force follow. */
  void step(Stock stock, boolean[] isLoco, double seconds) {
    if (data == null) {
      return;
    }
    for (int k = 0; k < stock.count; ) {
      int to = k;
      while (to < stock.count - 1 && stock.coupled[to]) {
        to++;
      }
      double target = 0;
      boolean led = false;
      for (int j = k; j <= to; j++) {
        int i = stock.who[j];
        led |= isLoco[i];
        target = Math.max(target, wanted[i]);
      }
      double asked = led || !data.automatic() ? target : 1;
      for (int j = k; j <= to; j++) {
        follow(stock.who[j], asked, seconds);
      }
      k = to + 1;
    }
  }

  private void follow(int i, double asked, double seconds) {
    double most = seconds / data.buildUpSeconds(); // infinite for one that acts at once
    double more = asked - applied[i];
    applied[i] = Math.abs(more) <= most ? asked : applied[i] + Math.signum(more) * most;
  }

  double applied(int i) {
    return applied[i];
  }

  /** Force of a vehicle's brake, N. */
  double newtons(int i, double kg) {
    double force = applied[i] * weakness * limitNewtons[i];
    return force > 0 ? Math.min(force, adhesion * adhesionShare * kg * Stock.GRAVITY) : 0;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (int i = 0; i < applied.length; i++) {
      to.writeDouble(applied[i]);
      to.writeDouble(wanted[i]);
    }
    to.writeDouble(weakness);
    to.writeDouble(adhesionShare);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int i = 0; i < applied.length; i++) {
      applied[i] = from.readDouble();
      wanted[i] = from.readDouble();
    }
    weakness = from.readDouble();
    adhesionShare = from.readDouble();
  }
}
