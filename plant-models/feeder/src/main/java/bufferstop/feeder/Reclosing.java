package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Automatic reclosing (79): the states of the reference, section 3.6. A dead time runs from the
 * open breaker to the close command. Without shots it only keeps the breaker's state: every trip
 * locks out. What opens or closes the breaker and is not the relay itself counts as an operator.
 */
final class Reclosing {
  /** The states; ordinals go to a port. */
  enum State {
    READY,
    TRIPPING,
    OPEN_WAIT,
    CLOSING,
    RECLAIM,
    LOCKOUT
  }

  private static final long CLOSE_LIMIT = 500_000;
  private static final long OPEN_LIMIT = 200_000;
  private static final int MOST_SHOTS = 4;

  private final int shots;
  private final long[] deadMicros = new long[MOST_SHOTS];
  private final long reclaimMicros;
  private final long waitMicros;
  private final long manualMicros;
  final int fastTrips;
  private final boolean lockOutOnInstantaneous;
  private State state;
  private long since;
  private int shot;
  private boolean reclosable = true; // what it tripped on may be closed onto again
  private boolean byOperator; // the reclaim time is that after a close by hand
  private boolean wasOpen; // locked out, and the breaker has been open since
  private long recloses;

  /**
   * @param s null when the relay does not reclose
   */
  Reclosing(Settings s, boolean closed) {
    shots = s == null ? 0 : (int) s.integer("shots");
    for (int i = 0; i < MOST_SHOTS; i++) {
      deadMicros[i] = s == null ? 0 : Math.round(s.number("dead_time_" + (i + 1)) * 1e6);
    }
    reclaimMicros = s == null ? 0 : Math.round(s.number("reclaim_time") * 1e6);
    waitMicros = s == null ? 0 : Math.round(s.number("wait_limit") * 1e6);
    manualMicros = s == null ? 0 : Math.round(s.number("manual_inhibit") * 1e6);
    fastTrips = s == null ? Integer.MAX_VALUE : (int) s.integer("fast_trips");
    lockOutOnInstantaneous = s != null && s.bool("lock_out_on_instantaneous");
    state = closed ? State.READY : State.LOCKOUT;
    wasOpen = !closed;
  }

  /** Instantaneous elements act on the coming trip. */
  boolean isFast() {
    return shot < fastTrips;
  }

  /** The relay trips. */
  void trip(boolean mayReclose, boolean instantaneous) {
    boolean again = state == State.RECLAIM || state == State.CLOSING;
    reclosable = mayReclose && !(again && instantaneous && lockOutOnInstantaneous);
    if (state != State.TRIPPING) {
      enter(State.TRIPPING);
    }
  }

  /** The breaker did not open, a lockout relay has operated, or an operator opens. */
  void lockOut() {
    enter(State.LOCKOUT);
  }

  private void enter(State next) {
    state = next;
    wasOpen = false;
    since = 0;
  }

  /**
   * One step.
   *
   * @param open the breaker is open and carries no current
   * @param closed the breaker is closed
   * @param live the source is there to close onto
   * @param enabled reclosing is switched on
   * @return whether the breaker is to be closed now
   */
  boolean step(long micros, boolean open, boolean closed, boolean live, boolean enabled) {
    since += micros;
    switch (state) {
      case READY -> {
        shot = 0;
        if (!closed) {
          enter(State.LOCKOUT); // opened by an operator
        }
      }
      case TRIPPING -> tripping(open, enabled, micros);
      case OPEN_WAIT -> {
        return waited(closed, live, enabled);
      }
      case CLOSING -> {
        if (closed) {
          recloses++;
          byOperator = false;
          enter(State.RECLAIM);
        } else if (since >= CLOSE_LIMIT) {
          enter(State.LOCKOUT);
        }
      }
      case RECLAIM -> reclaim(closed);
      default -> {
        wasOpen |= !closed;
        if (closed && wasOpen) {
          shot = shots;
          byOperator = true;
          enter(State.RECLAIM);
        }
      }
    }
    return false;
  }

  private void tripping(boolean open, boolean enabled, long micros) {
    if (open) {
      boolean again = reclosable && enabled && shot < shots;
      enter(again ? State.OPEN_WAIT : State.LOCKOUT);
      since = micros; // it was open for the whole of this step
    } else if (since >= OPEN_LIMIT) {
      enter(State.LOCKOUT);
    }
  }

  private boolean waited(boolean closed, boolean live, boolean enabled) {
    if (closed || !enabled) {
      enter(State.LOCKOUT); // an operator took over
      return false;
    }
    if (since >= deadMicros[shot] && live) {
      shot++;
      enter(State.CLOSING);
      return true;
    }
    if (since >= deadMicros[shot] + waitMicros) {
      enter(State.LOCKOUT);
    }
    return false;
  }

  private void reclaim(boolean closed) {
    long time = byOperator ? manualMicros : reclaimMicros;
    if (!closed) {
      enter(State.LOCKOUT); // opened by an operator
    } else if (since >= time) {
      shot = 0;
      enter(State.READY);
    }
  }

  State state() {
    return state;
  }

  int shot() {
    return shot;
  }

  long recloses() {
    return recloses;
  }

  /** Nothing in it moves by itself. */
  boolean idle() {
    return state == State.READY || state == State.LOCKOUT;
  }

  void save(DataOutput to) throws IOException {
    to.writeInt(state.ordinal());
    to.writeLong(since);
    to.writeInt(shot);
    to.writeBoolean(reclosable);
    to.writeBoolean(byOperator);
    to.writeBoolean(wasOpen);
    to.writeLong(recloses);
  }

  void restore(DataInput from) throws IOException {
    state = State.values()[from.readInt()];
    since = from.readLong();
    shot = from.readInt();
    reclosable = from.readBoolean();
    byOperator = from.readBoolean();
    wasOpen = from.readBoolean();
    recloses = from.readLong();
  }
}
