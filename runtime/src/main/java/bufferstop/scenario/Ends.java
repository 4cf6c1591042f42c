package bufferstop.scenario;

import bufferstop.model.Values;

/** What is said of a run that ended too early. */
final class Ends {
  private Ends() {}

  static String early(long endMicros) {
    return "the run ended at " + Values.time(endMicros) + ", before its time was up";
  }
}
