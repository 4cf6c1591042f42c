package bufferstop.plant;

import bufferstop.spi.RandomStream;
import java.nio.charset.StandardCharsets;

/**
 * A random stream that depends on the run's seed and its user's name alone. Algorithm: SplitMix64
 * of G. L. Steele, D. Lea, C. H. Flood, Fast Splittable Pseudorandom Number Generators, OOPSLA
 * 2014; the name enters by FNV-1a, 64 bits [both from memory, not re-read].
 */
public final class SeededStream implements RandomStream {
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final long FNV_BASIS = 0xCBF29CE484222325L;
  private static final long FNV_PRIME = 0x100000001B3L;

  private long state;

  /**
   * @param path stable name of the user: {@code wire.pit_beam}, {@code plant.line}
   */
  public SeededStream(long seed, String path) {
    long hash = FNV_BASIS;
    for (byte b : path.getBytes(StandardCharsets.UTF_8)) {
      hash = (hash ^ b & 0xFF) * FNV_PRIME;
    }
    state = mix(seed) ^ hash;
  }

  @Override
  public long nextLong() {
    state += GOLDEN;
    return mix(state);
  }

  private static long mix(long value) {
    long z = value;
    z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
    z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
    return z ^ z >>> 31;
  }
}
