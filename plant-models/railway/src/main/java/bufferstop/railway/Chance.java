package bufferstop.railway;

/**
 * A random stream of the plant's own whose whole state is one saved number: SplitMix64 (Steele,
 * Lea, Flood 2014, "Fast splittable pseudorandom number generators") [from memory, not re-read].
 */
final class Chance {
  private long state;

  Chance(long seed) {
    state = seed;
  }

  /** Next number, evenly spread over 0 (inclusive) to 1 (exclusive). */
  double share() {
    state += 0x9E3779B97F4A7C15L;
    long z = (state ^ (state >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return ((z ^ (z >>> 31)) >>> 11) * 0x1.0p-53;
  }

  long state() {
    return state;
  }

  void resume(long saved) {
    state = saved;
  }
}
