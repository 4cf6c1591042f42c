package bufferstop.scenario;

/**
 * What came of the bypass of one cause in a run.
 *
 * @param times how often it began
 * @param wouldAct how often the cause would have acted meanwhile
 */
public record BypassCount(String interlock, String cause, long times, long wouldAct) {

  /** This one and what came of the same bypass at another time. */
  public BypassCount and(BypassCount other) {
    return new BypassCount(interlock, cause, times + other.times, wouldAct + other.wouldAct);
  }
}
