package bufferstop.model;

/** Cells that every image has in the same place. */
public final class SystemCells {
  /** Errors in expressions since the start, {@code scan.errors}. */
  public static final int ERRORS = 0;

  /** Number of the place of the first of them, 0 for none, {@code scan.first_error}. */
  public static final int FIRST_ERROR = 1;

  /** Logical time of the scan in microseconds, {@code scan.time}. */
  public static final int TIME = 2;

  /** Passes of loops in this scan. */
  public static final int PASSES = 3;

  /** How many there are: other cells come after them. */
  public static final int COUNT = 4;

  private SystemCells() {}
}
