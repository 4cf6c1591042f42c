package bufferstop.engine;

/** Says when a scan is due. */
public interface Clock {

  /**
   * Returns when the next scan is due.
   *
   * @return periods missed since the last scan, 0 when in time
   */
  long awaitNext();

  /**
   * Tells that the scan has been performed.
   *
   * @return how long it took in nanoseconds; 0 where time is virtual
   */
  long performed();
}
