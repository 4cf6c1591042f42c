package bufferstop.bench;

/** A controller that can be driven scan by scan. */
public interface Controller {
  /**
   * One scan.
   *
   * @param bits BOOL inputs
   * @param reals LREAL inputs
   * @param now microseconds
   */
  void scan(boolean[] bits, double[] reals, long now);

  /** Number of the active step. */
  int step();

  /** The value of one of the first 200 rungs. */
  boolean rung(int i);

  /** Errors in expressions so far. */
  long errors();
}
