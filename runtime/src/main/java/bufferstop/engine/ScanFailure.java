package bufferstop.engine;

/** The scan itself failed; the run cannot go on. The message is for the user. */
public final class ScanFailure extends RuntimeException {
  public ScanFailure(String message) {
    super(message);
  }
}
