package bufferstop.load;

import java.nio.charset.StandardCharsets;

/**
 * Numbers that depend on a seed and a place alone. Algorithm: SplitMix64 of G. L. Steele, D. Lea,
 * C. H. Flood, Fast Splittable Pseudorandom Number Generators, OOPSLA 2014; the place enters by
 * FNV-1a, 64 bits [both from memory, not re-read].
 */
final class Draw {
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final long FNV_BASIS = 0xCBF29CE484222325L;
  private static final long FNV_PRIME = 0x100000001B3L;

  private long state;

  Draw(long seed, String path) {
    long hash = FNV_BASIS;
    for (byte b : path.getBytes(StandardCharsets.UTF_8)) {
      hash = (hash ^ b & 0xFF) * FNV_PRIME;
    }
    state = mix(seed) ^ hash;
  }

  long next() {
    state += GOLDEN;
    return mix(state);
  }

  /** From 0 to below a bound; 0 as the bound stands for 2 to the power of 64. */
  long next(long bound) {
    return bound == 0 ? next() : Long.remainderUnsigned(next(), bound);
  }

  private static long mix(long value) {
    long z = value;
    z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
    z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
    return z ^ z >>> 31;
  }
}
