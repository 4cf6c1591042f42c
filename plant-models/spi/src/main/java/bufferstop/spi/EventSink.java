package bufferstop.spi;

/** Where a plant reports what happens. Calls allocate nothing. */
public interface EventSink {

  /**
   * Reports an event of this step.
   *
   * @param event index in {@link Plant#events()}
   * @param value in the unit the event declares, 0 where it declares none
   */
  void happened(int event, double value);
}
