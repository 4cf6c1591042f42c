package bufferstop.spi;

/** Passes problems on and counts the errors among them: with one there is no plant to make. */
public final class ProblemCount implements Problems {
  private final Problems to;
  private int errors;

  /** Passes problems on to the host. */
  public ProblemCount(Problems to) {
    this.to = to;
  }

  /** How many errors were reported. */
  public int errors() {
    return errors;
  }

  @Override
  public void error(Settings at, String parameter, String message, String expected, String help) {
    errors++;
    to.error(at, parameter, message, expected, help);
  }

  @Override
  public void warning(Settings at, String parameter, String message, String expected, String help) {
    to.warning(at, parameter, message, expected, help);
  }
}
