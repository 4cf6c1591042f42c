package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Demand: mean power of an interval of the clock, block by block and sliding by its parts, and the
 * exponential demand that shows 90 % of a step after an interval. An interval that was not whole,
 * or had no voltage for longer than a minute, is shown but makes no maximum. [rules of the
 * reference, 5.7: sliding by subintervals re-read, the rest project choices]
 */
final class Demand {
  private static final long OUTAGE_MICROS = 60_000_000;

  private final long partMicros;
  private final int parts;
  private final double tauSeconds;
  private final double[] ring; // energies of the last parts, J
  private final boolean[] flawed;
  private int next;
  private int filled;
  private int partOfBlock;
  private long inPart;
  private double joules;
  private long deadMicros;
  private boolean whole; // the part at work began at its boundary
  private double block;
  private double sliding;
  private double thermal;
  private double mostBlock;
  private double mostSliding;
  private long mostBlockMicros;
  private long nowMicros;

  /**
   * @param startSeconds time of day at time zero
   */
  Demand(double intervalSeconds, int parts, double startSeconds) {
    this.parts = parts;
    partMicros = Math.max(1, Math.round(intervalSeconds * 1e6 / parts));
    tauSeconds = intervalSeconds / StrictMath.log(10);
    ring = new double[parts];
    flawed = new boolean[parts];
    long start = Math.round(startSeconds * 1e6);
    inPart = start % partMicros;
    partOfBlock = (int) (start / partMicros % parts);
    whole = inPart == 0;
  }

  /** Counts a time at constant power; cut where a part ends within it. */
  void add(double watts, long micros, boolean live) {
    thermal += (watts - thermal) * -StrictMath.expm1(-micros * 1e-6 / tauSeconds);
    long left = micros;
    while (left > 0) {
      long take = Math.min(left, partMicros - inPart);
      joules += watts * take * 1e-6;
      deadMicros += live ? 0 : take;
      inPart += take;
      nowMicros += take;
      left -= take;
      if (inPart == partMicros) {
        endPart();
      }
    }
  }

  private void endPart() {
    ring[next] = joules;
    flawed[next] = !whole || deadMicros > OUTAGE_MICROS;
    next = (next + 1) % parts;
    filled = Math.min(filled + 1, parts);
    joules = 0;
    deadMicros = 0;
    inPart = 0;
    whole = true;
    partOfBlock++;
    double sum = 0;
    boolean sound = filled == parts;
    for (int i = 0; i < parts; i++) {
      sum += ring[i];
      sound &= !flawed[i];
    }
    double mean = sum / (parts * partMicros * 1e-6);
    if (filled == parts) {
      sliding = mean;
      mostSliding = sound ? Math.max(mostSliding, mean) : mostSliding;
    }
    if (partOfBlock == parts) {
      partOfBlock = 0;
      endBlock(mean, sound);
    }
  }

  private void endBlock(double mean, boolean sound) {
    if (filled == parts) {
      block = mean;
      if (sound && mean > mostBlock) {
        mostBlock = mean;
        mostBlockMicros = nowMicros;
      }
    }
  }

  /** Mean power of the last whole block, W. */
  double block() {
    return block;
  }

  /** Mean power of the last interval that ended with a part, W. */
  double sliding() {
    return sliding;
  }

  /** Exponential demand, W. */
  double thermal() {
    return thermal;
  }

  double mostBlock() {
    return mostBlock;
  }

  double mostSliding() {
    return mostSliding;
  }

  /** When the block of the maximum ended, s since the start. */
  double mostBlockSeconds() {
    return mostBlockMicros * 1e-6;
  }

  void save(DataOutput to) throws IOException {
    for (int i = 0; i < parts; i++) {
      to.writeDouble(ring[i]);
      to.writeBoolean(flawed[i]);
    }
    for (int each : new int[] {next, filled, partOfBlock}) {
      to.writeInt(each);
    }
    for (long each : new long[] {inPart, deadMicros, mostBlockMicros, nowMicros}) {
      to.writeLong(each);
    }
    to.writeBoolean(whole);
    for (double each : new double[] {joules, block, sliding, thermal, mostBlock, mostSliding}) {
      to.writeDouble(each);
    }
  }

  void restore(DataInput from) throws IOException {
    for (int i = 0; i < parts; i++) {
      ring[i] = from.readDouble();
      flawed[i] = from.readBoolean();
    }
    next = from.readInt();
    filled = from.readInt();
    partOfBlock = from.readInt();
    inPart = from.readLong();
    deadMicros = from.readLong();
    mostBlockMicros = from.readLong();
    nowMicros = from.readLong();
    whole = from.readBoolean();
    joules = from.readDouble();
    block = from.readDouble();
    sliding = from.readDouble();
    thermal = from.readDouble();
    mostBlock = from.readDouble();
    mostSliding = from.readDouble();
  }
}
