package bufferstop.scenario;

import bufferstop.model.Scenario.Stimulus;
import bufferstop.st.Expression;

/** A stimulus waiting for its moment, then for the moment to be undone. */
final class PendingStimulus {
  private final Stimulus stimulus;
  private final Expression when; // null for a time
  private final Target.Prepared prepared;
  private long dueMicros;
  private long lastMicros = -1; // of the last scan; an image that no scan has filled shows nothing
  private long doneMicros;
  private boolean armed;
  private boolean done;
  private boolean over;

  PendingStimulus(Stimulus stimulus, Expression when, Target.Prepared prepared) {
    this.stimulus = stimulus;
    this.when = when;
    this.prepared = prepared;
    if (when == null) {
      arm(0);
    }
  }

  private void arm(long fromMicros) {
    armed = true;
    dueMicros = fromMicros + stimulus.trigger().afterMicros();
  }

  /**
   * Acts if it is time; called before the scan at {@code nextMicros} with the last scan's image.
   */
  void beforeScan(long[] cells, long nextMicros) {
    if (over) {
      return;
    }
    if (!armed && lastMicros >= 0 && when.truth(cells)) {
      arm(lastMicros);
    }
    lastMicros = nextMicros;
    if (armed && !done && nextMicros >= dueMicros) {
      prepared.act().perform();
      done = true;
      doneMicros = nextMicros;
      over = prepared.undo() == null;
    }
    if (done && !over && nextMicros >= doneMicros + prepared.undoAfterMicros()) {
      prepared.undo().perform();
      over = true;
    }
  }

  boolean isDone() {
    return done;
  }

  /** For the note that it never came to it. */
  String describe() {
    String place = stimulus.position().line() + ":" + stimulus.position().column();
    return when == null
        ? "the stimulus at line " + place + " came after the end of the run"
        : "`"
            + when.source().value()
            + "` never held, so the stimulus at line "
            + place
            + " was not done";
  }
}
