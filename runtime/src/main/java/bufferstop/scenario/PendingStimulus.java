package bufferstop.scenario;

import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Trigger;
import bufferstop.st.Expression;

/** A stimulus waiting for its moments, and for the moment to be undone. */
final class PendingStimulus {
  private final Stimulus stimulus;
  private final Trigger trigger;
  private final Expression when; // null for a time, and for what it follows
  private final PendingStimulus follows; // null for none
  private final Target.Prepared prepared;
  private final Times due = new Times();
  private boolean held; // what `when` was in that scan
  private long armed; // moments caused so far; at least as many as done
  private long done;
  private long followed; // of what it follows, how many were answered
  private long doneMicros = -1; // the last time
  private boolean going; // since then, until it is undone

  PendingStimulus(
      Stimulus stimulus, Expression when, PendingStimulus follows, Target.Prepared prepared) {
    this.stimulus = stimulus;
    this.trigger = stimulus.trigger();
    this.when = when;
    this.follows = follows;
    this.prepared = prepared;
    if (when == null && follows == null) {
      arm(0);
    }
  }

  String id() {
    return stimulus.id();
  }

  private void arm(long fromMicros) {
    boolean first = armed == 0;
    boolean more = trigger.times() == 0 || armed < trigger.times();
    if (more && (first || trigger.everyMicros() == 0)) {
      due.add(fromMicros + trigger.afterMicros());
      armed++;
    }
  }

  /**
   * Acts if it is time; called before each scan, in the order in which stimuli are written.
   *
   * @param cells the last scan's image
   * @param lastMicros its time; negative before the first, when the image shows nothing
   * @param nextMicros time of the scan to come
   */
  void beforeScan(long[] cells, long lastMicros, long nextMicros) {
    seekCause(cells, lastMicros);
    while (!due.isEmpty() && nextMicros >= due.first()) {
      long moment = due.removeFirst();
      undo();
      prepared.begin();
      done++;
      doneMicros = nextMicros;
      going = true;
      if (trigger.everyMicros() > 0 && (trigger.times() == 0 || armed < trigger.times())) {
        due.add(moment + trigger.everyMicros());
        armed++;
      }
    }
    if (going) {
      long elapsed = nextMicros - doneMicros;
      prepared.goOn(elapsed);
      if (prepared.lastsMicros() > 0 && elapsed >= prepared.lastsMicros()) {
        undo();
      }
    }
  }

  private void undo() {
    if (going && prepared.lastsMicros() > 0) {
      prepared.end();
    }
    going = false;
  }

  private void seekCause(long[] cells, long lastMicros) {
    if (when != null && lastMicros >= 0) {
      boolean holds = when.truth(cells);
      if (holds && !held) {
        arm(lastMicros);
      }
      held = holds;
    }
    if (follows != null && follows.done > followed) {
      followed = follows.done;
      arm(follows.doneMicros);
    }
  }

  boolean isDone() {
    return done > 0 && done >= trigger.times();
  }

  /** For the note that it never came to it, or not often enough. */
  String describe() {
    String place = stimulus.position().line() + ":" + stimulus.position().column();
    if (done > 0) {
      return "the stimulus at line %s was done %d of %d times"
          .formatted(place, done, trigger.times());
    }
    if (armed > 0) {
      return "the stimulus at line " + place + " came after the end of the run";
    }
    return when == null
        ? "`%s` was not done, so neither was the stimulus at line %s"
            .formatted(trigger.follows(), place)
        : "`%s` never held, so the stimulus at line %s was not done"
            .formatted(when.source().value(), place);
  }
}
