package bufferstop.feeder;

import bufferstop.spi.RandomStream;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Random numbers whose place in their stream is part of the plant's state. Generator: SplitMix64
 * (Steele, Lea and Flood 2014) from a start that the run's own stream gives.
 */
final class Draws {
  private long state;

  Draws(RandomStream start) {
    state = start.nextLong();
  }

  /** Evenly spread over 0 to 1. */
  double next() {
    state += 0x9E3779B97F4A7C15L;
    long z = state;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return ((z ^ (z >>> 31)) >>> 11) * 0x1.0p-53;
  }

  void save(DataOutput to) throws IOException {
    to.writeLong(state);
  }

  void restore(DataInput from) throws IOException {
    state = from.readLong();
  }
}
