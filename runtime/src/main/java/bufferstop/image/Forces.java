package bufferstop.image;

import java.util.Arrays;

/**
 * Forced values by cell, kept by the scan thread. A force replaces what the wires deliver to an
 * input, or what the program says of an output, until it is cleared; safe values win over it.
 */
public final class Forces {
  private final boolean[] forced;
  private final long[] values;
  private int count;

  /**
   * @param cells size of the image
   */
  public Forces(int cells) {
    forced = new boolean[cells];
    values = new long[cells];
  }

  public void set(int cell, long bits) {
    count += forced[cell] ? 0 : 1;
    forced[cell] = true;
    values[cell] = bits;
  }

  public void clear(int cell) {
    count -= forced[cell] ? 1 : 0;
    forced[cell] = false;
  }

  /** Takes every force away. */
  public void clearAll() {
    Arrays.fill(forced, false);
    count = 0;
  }

  public boolean isForced(int cell) {
    return forced[cell];
  }

  /** How many cells are forced. */
  public int count() {
    return count;
  }

  /** The forced value of a cell, or {@code bits} when it is free. */
  public long apply(int cell, long bits) {
    return forced[cell] ? values[cell] : bits;
  }
}
