package bufferstop.spi;

/**
 * A stream of random numbers that depends on the run's seed and on the name of its user alone, the
 * same on every machine and Java version.
 */
public interface RandomStream {

  /** The next 64 random bits. */
  long nextLong();

  /** The next number, evenly spread over 0 (inclusive) to 1 (exclusive). */
  default double nextDouble() {
    return (nextLong() >>> 11) * 0x1.0p-53;
  }
}
