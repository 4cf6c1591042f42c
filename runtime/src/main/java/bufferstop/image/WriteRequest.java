package bufferstop.image;

import java.util.concurrent.atomic.AtomicLong;

/**
 * One atomic write of one or more operator points. It is either taken whole by one scan or
 * withdrawn whole, never both. Values must have been checked against the points' ranges before.
 */
public final class WriteRequest {
  private static final long OFFERED = -1;
  private static final long WITHDRAWN = -2;

  private final int[] cells;
  private final long[] bits;
  private final long[] keep;
  private final AtomicLong state = new AtomicLong(OFFERED);

  /**
   * A request.
   *
   * @param cells cell of each point, each at most once
   * @param bits new value of each, in the encoding of {@link bufferstop.model.Type}
   * @param keep for each point the bits that stay as they are when the scan takes it; 0 replaces
   *     all
   */
  public WriteRequest(int[] cells, long[] bits, long[] keep) {
    this.cells = cells.clone();
    this.bits = bits.clone();
    this.keep = keep.clone();
  }

  /**
   * Withdraws the request if no scan has taken it.
   *
   * @return whether it will never be taken; FALSE means that a scan already took it
   */
  public boolean withdraw() {
    return state.compareAndSet(OFFERED, WITHDRAWN) || isWithdrawn();
  }

  /**
   * The publication that will show the write.
   *
   * @return its number for {@link SnapshotRing#published}, or -1 while no scan has taken it
   */
  public long takenBy() {
    long value = state.get();
    return value >= 0 ? value : -1;
  }

  boolean isWithdrawn() {
    return state.get() == WITHDRAWN;
  }

  boolean takeFor(long publication) {
    return state.compareAndSet(OFFERED, publication);
  }

  /** How many cells it writes. */
  public int size() {
    return cells.length;
  }

  /** One of them; those of a STRING stand in a row, the first one first. */
  public int cell(int i) {
    return cells[i];
  }

  /** Puts its values into an image. */
  public void writeTo(long[] image) {
    for (int i = 0; i < cells.length; i++) {
      image[cells[i]] = image[cells[i]] & keep[i] | bits[i] & ~keep[i];
    }
  }
}
