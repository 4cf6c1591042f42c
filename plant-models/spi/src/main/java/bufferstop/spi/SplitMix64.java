package bufferstop.spi;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A random stream whose whole state is one number, so that a plant can save it: begin one with a
 * number of the stream that the host gives. SplitMix64: a counter stepped by the odd constant
 * 9E3779B97F4A7C15 (2^64 over the golden ratio), each value scrambled by two rounds of shift,
 * exclusive or and multiply (BF58476D1CE4E5B9, 94D049BB133111EB) and a last shift. Source: G. L.
 * Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014 [from
 * memory, not re-read].
 */
public final class SplitMix64 implements RandomStream, Stateful {
  private long state;

  /**
   * A stream.
   *
   * @param seed any number; equal seeds give equal streams
   */
  public SplitMix64(long seed) {
    state = seed;
  }

  @Override
  public long nextLong() {
    state += 0x9E3779B97F4A7C15L;
    long z = state;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeLong(state);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    state = from.readLong();
  }
}
