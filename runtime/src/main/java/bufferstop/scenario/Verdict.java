package bufferstop.scenario;

/** How an expectation or a scenario ended. */
public enum Verdict {
  PASSED("passed"),
  INCONCLUSIVE("inconclusive"),
  FAILED("failed");

  private final String word;

  Verdict(String word) {
    this.word = word;
  }

  /** As results are written. */
  public String word() {
    return word;
  }

  /** The worse of two. */
  Verdict and(Verdict other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
