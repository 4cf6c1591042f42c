package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/**
 * Every vehicle, in rows: a row is what stands on one way through the track as the turnouts lie, so
 * that its vehicles can meet each other and nobody else. Within a row there is one coordinate and
 * one direction; vehicle {@code who[k]} has place k. A body is part of a row held together, by
 * couplers or by contact; its vehicles have one speed.
 */
final class Stock implements Stateful {
  /** Free fall, m/s² (reference 0.2). */
  static final double GRAVITY = 9.80665;

  /** No contact: apart, or coupled with the coupler's slack between. */
  static final int FREE = 0;

  /** Couplers in contact: they push, they do not pull. */
  static final int PUSH = 1;

  /** Coupled and stretched: they pull, they do not push. */
  static final int PULL = 2;

  /** Coupled without slack. */
  static final int RIGID = 3;

  final int count;
  final List<VehicleData> data;
  final Placement placement;
  final int[] who;
  final int[] at; // place of each vehicle
  final int[] facing; // +1 where the vehicle at a place faces along its row
  final double[] x; // middle of the vehicle at a place
  final double[] v;
  final int[] contact; // between places k and k + 1
  final boolean[] coupled;
  final double[] moved; // of each place since the step began
  final double[] loadKg; // by vehicle, as all that follow
  final boolean[] derailed;
  final double[] half;
  final double slackMetres;
  private final double gapMetres;
  private final double[] tareKg;

  // Rows, and what lies at their ends.
  int rows;
  final int[] first;
  final int[] last;
  final EndStop[] lowStop;
  final EndStop[] highStop;
  final double[] lowFace;
  final double[] highFace;

  Stock(LineData line, Placement placement) {
    data = line.vehicles();
    this.placement = placement;
    count = data.size();
    gapMetres = line.coupling().gapMetres();
    slackMetres = line.coupling().slackMetres();
    who = new int[count];
    at = new int[count];
    facing = new int[count];
    x = new double[count];
    v = new double[count];
    contact = new int[count];
    coupled = new boolean[count];
    moved = new double[count];
    loadKg = new double[count];
    derailed = new boolean[count];
    half = new double[count];
    tareKg = new double[count];
    first = new int[count];
    last = new int[count];
    lowStop = new EndStop[count];
    highStop = new EndStop[count];
    lowFace = new double[count];
    highFace = new double[count];
    for (int i = 0; i < count; i++) {
      loadKg[i] = data.get(i).loadKg();
      tareKg[i] = data.get(i).tareKg();
      half[i] = data.get(i).lengthMetres() / 2;
      who[i] = i;
      at[i] = i;
      facing[i] = 1;
    }
  }

  double low(int k) {
    return x[k] - half[who[k]];
  }

  double high(int k) {
    return x[k] + half[who[k]];
  }

  double gapMetres() {
    return gapMetres;
  }

  /** Distance in m between the couplers of places k and k + 1, not above 0 when bunched. */
  double couplerDistance(int k) {
    return low(k + 1) - high(k) - gapMetres;
  }

  double kg(int k) {
    int i = who[k];
    return tareKg[i] + loadKg[i];
  }

  double kg(int from, int to) {
    double sum = 0;
    for (int k = from; k <= to; k++) {
      sum += kg(k);
    }
    return sum;
  }

  /** Speed of a vehicle towards its front. */
  double speed(int i) {
    return v[at[i]] * facing[at[i]];
  }

  int firstOfBody(int row, int k) {
    int from = k;
    while (from > first[row] && contact[from - 1] != FREE) {
      from--;
    }
    return from;
  }

  int lastOfBody(int row, int k) {
    int to = k;
    while (to < last[row] && contact[to] != FREE) {
      to++;
    }
    return to;
  }

  /** Row of a place. */
  int row(int k) {
    int row = 0;
    while (last[row] < k) {
      row++;
    }
    return row;
  }

  /** Gives every vehicle of the body at place k one speed. */
  void setBodySpeed(int row, int k, double speed) {
    int to = lastOfBody(row, k);
    for (int j = firstOfBody(row, k); j <= to; j++) {
      v[j] = speed;
    }
  }

  /** Whether a vehicle is coupled to any other. */
  boolean isCoupled(int i) {
    int k = at[i];
    return k < count - 1 && coupled[k] || k > 0 && coupled[k - 1];
  }

  /** Gap in m between a buffer stop at the low end of a row and its nearest vehicle. */
  double lowGap(int row) {
    return low(first[row]) - lowFace[row];
  }

  double highGap(int row) {
    return highFace[row] - high(last[row]);
  }

  /**
   * Drops load into a vehicle; what falls in has no speed along the line, so the body keeps its
   * momentum and loses speed (reference F7.4, C5.3).
   */
  void addLoad(int i, double kg) {
    int k = at[i];
    if (v[k] == 0 || kg == 0) {
      loadKg[i] += kg;
      return;
    }
    int row = row(k);
    double before = kg(firstOfBody(row, k), lastOfBody(row, k));
    loadKg[i] += kg;
    setBodySpeed(row, k, v[k] * before / (before + kg));
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (int k = 0; k < count; k++) {
      to.writeInt(who[k]);
      to.writeByte(facing[k]);
      to.writeDouble(x[k]);
      to.writeDouble(v[k]);
      to.writeByte(contact[k]);
      to.writeBoolean(coupled[k]);
      to.writeDouble(loadKg[k]);
      to.writeBoolean(derailed[k]);
      to.writeInt(first[k]);
      to.writeInt(last[k]);
      to.writeInt(placement.track.stops.indexOf(lowStop[k]));
      to.writeInt(placement.track.stops.indexOf(highStop[k]));
      to.writeDouble(lowFace[k]);
      to.writeDouble(highFace[k]);
    }
    to.writeInt(rows);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int k = 0; k < count; k++) {
      who[k] = from.readInt();
      at[who[k]] = k;
      facing[k] = from.readByte();
      x[k] = from.readDouble();
      v[k] = from.readDouble();
      contact[k] = from.readByte();
      coupled[k] = from.readBoolean();
      loadKg[k] = from.readDouble();
      derailed[k] = from.readBoolean();
      first[k] = from.readInt();
      last[k] = from.readInt();
      lowStop[k] = stop(from.readInt());
      highStop[k] = stop(from.readInt());
      lowFace[k] = from.readDouble();
      highFace[k] = from.readDouble();
    }
    rows = from.readInt();
  }

  private EndStop stop(int number) {
    return number < 0 ? null : placement.track.stops.get(number);
  }
}
