package bufferstop.spi;

/**
 * How many steps a plant has taken and how long each is; refuses calls out of order by the method's
 * name. For a plant to keep its promises with: nothing of the host depends on it.
 */
public final class Steps {
  private boolean running;
  private long count;
  private long micros; // 0 before the first

  /** A plant that was not started. */
  public Steps() {}

  /**
   * Starts.
   *
   * @throws IllegalStateException when it runs already
   */
  public void start() {
    requireStopped("start");
    running = true;
  }

  /**
   * For a method that comes before {@code start}.
   *
   * @throws IllegalStateException when it runs already; the message gives the method
   */
  public void requireStopped(String method) {
    if (running) {
      throw new IllegalStateException(method + " called while the plant is running");
    }
  }

  /**
   * For a method that comes after {@code start}.
   *
   * @throws IllegalStateException when it was not started; the message gives the method
   */
  public void requireRunning(String method) {
    if (!running) {
      throw new IllegalStateException(method + " called while the plant is not started");
    }
  }

  /**
   * Takes one step.
   *
   * @param stepMicros its length in microseconds
   * @return time at its end in microseconds: the number of steps times the step
   * @throws IllegalStateException when the plant was not started
   * @throws IllegalArgumentException when the length is not above 0, or not that of the first step
   */
  public long step(long stepMicros) {
    requireRunning("step");
    if (micros == 0) {
      micros = stepMicros;
    }
    if (stepMicros != micros || stepMicros <= 0) {
      throw new IllegalArgumentException(
          "step of " + stepMicros + " us after steps of " + micros + " us");
    }
    count++;
    return count * micros;
  }

  /** How many were taken. */
  public long count() {
    return count;
  }

  /** Length of each in microseconds; 0 before the first. */
  public long micros() {
    return micros;
  }

  /** Goes on where a saved plant was; stands in for {@link #start}. */
  public void resume(long count, long micros) {
    this.count = count;
    this.micros = micros;
    running = true;
  }
}
