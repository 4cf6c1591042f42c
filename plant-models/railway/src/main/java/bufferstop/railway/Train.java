package bufferstop.railway;

import bufferstop.railway.LineData.VehicleData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/**
 * Every vehicle on the line in order, low end first, and the couplers between them. A body is a row
 * of vehicles held together, coupled or merely touching; its vehicles have one speed.
 */
final class Train {
  /** Free fall, m/s² (reference 0.2). */
  static final double GRAVITY = 9.80665;

  /** Couplers apart. */
  static final int APART = 0;

  /** Couplers in contact, not coupled: they push, they do not pull. */
  static final int TOUCHING = 1;

  /** Couplers coupled, without slack. */
  static final int COUPLED = 2;

  final int count;
  final int loco;
  final List<VehicleData> data;
  final double[] x;
  final double[] v;
  final double[] loadKg;
  final int[] link;

  /** Speed of the driven wheels' rim in m/s; other than the locomotive's while they slip. */
  double wheel;

  private final double gapMetres;
  private final double[] half;
  private final double[] tareKg;
  private final double[] rollingShare;

  Train(LineData line) {
    data = line.vehicles();
    count = data.size();
    gapMetres = line.coupling().gapMetres();
    x = new double[count];
    v = new double[count];
    loadKg = new double[count];
    half = new double[count];
    tareKg = new double[count];
    rollingShare = new double[count];
    link = new int[count - 1];
    int found = 0;
    for (int i = 0; i < count; i++) {
      VehicleData vehicle = data.get(i);
      x[i] = vehicle.startMetres();
      loadKg[i] = vehicle.loadKg();
      tareKg[i] = vehicle.tareKg();
      rollingShare[i] = vehicle.rolling();
      half[i] = vehicle.lengthMetres() / 2;
      found = vehicle.loco() ? i : found;
    }
    loco = found;
    for (int i = 0; i < count - 1; i++) {
      link[i] = data.get(i).coupledAtStart() ? COUPLED : APART;
    }
  }

  double low(int i) {
    return x[i] - half[i];
  }

  double high(int i) {
    return x[i] + half[i];
  }

  /** Distance in m between the couplers of vehicles i and i + 1, not above 0 in contact. */
  double couplerDistance(int i) {
    return low(i + 1) - high(i) - gapMetres;
  }

  /** Place in m of the coupler between vehicles i and i + 1. */
  double couplerPlace(int i) {
    return (high(i) + low(i + 1)) / 2;
  }

  double massKg(int i) {
    return tareKg[i] + loadKg[i];
  }

  double massKg(int from, int to) {
    double sum = 0;
    for (int i = from; i <= to; i++) {
      sum += massKg(i);
    }
    return sum;
  }

  /** Rolling resistance of a moving vehicle in N: constant share of its weight. */
  double rollingNewtons(int i) {
    return rollingShare[i] * massKg(i) * GRAVITY;
  }

  double rollingNewtons(int from, int to) {
    double sum = 0;
    for (int i = from; i <= to; i++) {
      sum += rollingNewtons(i);
    }
    return sum;
  }

  int firstOfBody(int i) {
    int first = i;
    while (first > 0 && link[first - 1] != APART) {
      first--;
    }
    return first;
  }

  int lastOfBody(int i) {
    int last = i;
    while (last < count - 1 && link[last] != APART) {
      last++;
    }
    return last;
  }

  /** Gives every vehicle of the body that holds vehicle i one speed. */
  void setBodySpeed(int i, double speed) {
    int last = lastOfBody(i);
    for (int j = firstOfBody(i); j <= last; j++) {
      v[j] = speed;
    }
  }

  boolean coupled(int i) {
    return (i > 0 && link[i - 1] == COUPLED) || (i < count - 1 && link[i] == COUPLED);
  }

  /** Length in m of line between {@code from} and {@code to} that vehicle i stands on. */
  double cover(int i, double from, double to) {
    return Math.max(0, Math.min(high(i), to) - Math.max(low(i), from));
  }

  /**
   * Drops load into a vehicle; what falls in has no speed along the line, so the body keeps its
   * momentum and loses speed (reference F7.4, C5.3).
   */
  void addLoad(int i, double kg) {
    int first = firstOfBody(i);
    double before = massKg(first, lastOfBody(i));
    loadKg[i] += kg;
    if (v[i] != 0 && kg != 0) {
      setBodySpeed(i, v[i] * before / (before + kg));
    }
  }

  void save(DataOutput to) throws IOException {
    for (int i = 0; i < count; i++) {
      to.writeDouble(x[i]);
      to.writeDouble(v[i]);
      to.writeDouble(loadKg[i]);
    }
    for (int state : link) {
      to.writeByte(state);
    }
    to.writeDouble(wheel);
  }

  void restore(DataInput from) throws IOException {
    for (int i = 0; i < count; i++) {
      x[i] = from.readDouble();
      v[i] = from.readDouble();
      loadKg[i] = from.readDouble();
    }
    for (int i = 0; i < link.length; i++) {
      link[i] = from.readByte();
    }
    wheel = from.readDouble();
  }
}
