package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Energy registers, kept as whole microjoules so that nothing is lost over a long run. Quadrants by
 * the signs of P and Q: 0 import lagging, 1 export with Q above 0, 2 export below, 3 import
 * leading.
 */
final class Registers {
  private static final double PER_HOUR = 3.6e9; // microjoules a watt hour

  private long imported;
  private long exported;
  private long apparentImported;
  private long apparentExported;
  private final long[] reactive = new long[4];

  /** Counts a time at constant power. */
  void add(double watts, double vars, double voltAmperes, long micros) {
    long energy = Math.round(watts * micros);
    if (energy > 0) {
      imported += energy;
    } else {
      exported -= energy;
    }
    long apparent = Math.round(voltAmperes * micros);
    apparentImported += watts >= 0 ? apparent : 0;
    apparentExported += watts >= 0 ? 0 : apparent;
    int quadrant = watts >= 0 ? vars >= 0 ? 0 : 3 : vars >= 0 ? 1 : 2;
    reactive[quadrant] += Math.round(Math.abs(vars) * micros);
  }

  /** Wh. */
  double imported() {
    return imported / PER_HOUR;
  }

  /** Wh. */
  double exported() {
    return exported / PER_HOUR;
  }

  /** VAh while active energy is imported. */
  double apparentImported() {
    return apparentImported / PER_HOUR;
  }

  /** VAh while it is exported. */
  double apparentExported() {
    return apparentExported / PER_HOUR;
  }

  /** varh of a quadrant. */
  double reactive(int quadrant) {
    return reactive[quadrant] / PER_HOUR;
  }

  void save(DataOutput to) throws IOException {
    to.writeLong(imported);
    to.writeLong(exported);
    to.writeLong(apparentImported);
    to.writeLong(apparentExported);
    for (long each : reactive) {
      to.writeLong(each);
    }
  }

  void restore(DataInput from) throws IOException {
    imported = from.readLong();
    exported = from.readLong();
    apparentImported = from.readLong();
    apparentExported = from.readLong();
    for (int i = 0; i < 4; i++) {
      reactive[i] = from.readLong();
    }
  }
}
