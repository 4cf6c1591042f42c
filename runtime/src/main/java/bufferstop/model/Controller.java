package bufferstop.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The declared controller, every list in file order.
 *
 * @param definitions types, constants and arrays
 * @param routines functions and function blocks of users, those of libraries first
 * @param points inputs, outputs, operator points and internals
 * @param blocks instances of function blocks
 * @param interlocks permissives, interlocks and trips
 * @param sequences sequential function charts
 * @param logic Structured Text, empty when there is none
 * @param alarms alarms
 * @param acknowledge its rising edge acknowledges every alarm; null when alarms need none
 */
public record Controller(
    Definitions definitions,
    List<Routine> routines,
    List<Point> points,
    List<Block> blocks,
    List<Interlock> interlocks,
    List<Sequence> sequences,
    SourceText logic,
    List<Alarm> alarms,
    SourceText acknowledge) {

  /** The same with one more alarm and its points. */
  public Controller withAlarm(Alarm alarm) {
    List<Alarm> more = new ArrayList<>(alarms);
    more.add(alarm);
    List<Point> others = new ArrayList<>(points);
    others.addAll(AlarmPoints.of(List.of(alarm)));
    return new Controller(
        definitions,
        routines,
        List.copyOf(others),
        blocks,
        interlocks,
        sequences,
        logic,
        List.copyOf(more),
        acknowledge);
  }

  /**
   * One instance of a function block.
   *
   * @param name of the instance
   * @param block {@code TON}, or the name of a user's own
   * @param inputs expressions by the names of inputs, as written, in file order
   * @param retain whether it goes on after a warm restart as it was
   */
  public record Block(
      String name, Name block, Map<Name, SourceText> inputs, boolean retain, Position position) {}

  /** What an interlock does. */
  public enum InterlockKind {
    /** Needed to start, not to go on. */
    PERMISSIVE,
    /** Needed to go on. */
    INTERLOCK,
    /** Latches until reset. */
    TRIP
  }

  /**
   * A permissive, an interlock or a trip.
   *
   * @param causes named conditions: those that must hold (permissive, interlock), or those of which
   *     one suffices (trip)
   * @param reset a trip's reset, acting on its rising edge; null on the others
   * @param makesSafe outputs held at their safe value while it acts
   * @param group of which the first to act is kept; null when it is in none
   * @param retain whether a trip stays tripped over a warm restart
   */
  public record Interlock(
      String name,
      InterlockKind kind,
      List<Cause> causes,
      SourceText reset,
      List<Name> makesSafe,
      Name group,
      boolean retain,
      String text,
      Position position) {}

  /**
   * One named condition of an interlock, or a vote of several.
   *
   * @param condition null when it is voted
   * @param vote null when it is not
   * @param delayMicros how long it must ask before it acts; 0 for at once
   * @param bypass null when it cannot be bypassed
   */
  public record Cause(
      String name,
      SourceText condition,
      Vote vote,
      long delayMicros,
      Bypass bypass,
      String text,
      Position position) {

    /** One without a vote, a delay, a bypass. */
    public static Cause plain(String name, SourceText condition, Position position) {
      return new Cause(name, condition, null, 0, null, "", position);
    }
  }

  /**
   * M out of N: it acts while at least so many channels ask for it.
   *
   * @param badAsks whether a channel of bad quality counts as asking; else it is absent
   * @param differMicros how long channels may differ; 0 when nobody asks
   */
  public record Vote(int needed, List<Channel> channels, boolean badAsks, long differMicros) {}

  /**
   * A channel of a vote.
   *
   * @param bad TRUE while its quality is bad; null when that is not known
   */
  public record Channel(String name, SourceText condition, SourceText bad, Position position) {}

  /**
   * Suppresses a cause from a rising edge of {@code when} until that is FALSE, at most for the
   * time.
   */
  public record Bypass(SourceText when, long atMostMicros) {}

  /**
   * A sequential function chart.
   *
   * @param actions those that are statements
   * @param abort leads to one step whenever it holds; null when there is none
   * @param hold makes it stand still; null when nothing does
   * @param manual lets it be stepped by hand; null when it cannot be
   */
  public record Sequence(
      String name,
      List<Step> steps,
      List<Transition> transitions,
      List<StatementAction> actions,
      Abort abort,
      Hold hold,
      Manual manual,
      Position position) {}

  /**
   * A step.
   *
   * @param isFinal while it is active its sequence is done
   * @param runs the sequence that it encloses; null when there is none
   * @param atLeastMicros no transition leaves it earlier; 0 for no limit
   * @param withinMicros longest stay before it is late; 0 for no limit
   */
  public record Step(
      String name,
      boolean initial,
      boolean isFinal,
      Name runs,
      List<Action> actions,
      long atLeastMicros,
      long withinMicros,
      String text,
      Position position) {}

  /** Statements that steps ask for by name. */
  public record StatementAction(Name name, SourceText statements) {}

  /** What an action does to its target. Source: IEC 61131-3:2003, Table 45 [re-read]. */
  public enum Qualifier {
    /** Non-stored: TRUE while the step is active. */
    N(false),
    /** Set, until R. */
    S(false),
    /** Overriding reset. */
    R(false),
    /** Time limited: TRUE while the step is active, at most for the time. */
    L(true),
    /** Time delayed: TRUE while the step is active, once the time has passed. */
    D(true),
    /** Pulse: TRUE in the scan in which the step becomes active. */
    P(false),
    /** Stored and time delayed: TRUE once the time has passed since the step began, until R. */
    SD(true),
    /** Delayed and stored: likewise, if the step is still active then. */
    DS(true),
    /** Stored and time limited: TRUE for the time since the step began; begins anew after R. */
    SL(true),
    /** Pulse, rising: statements run once in the scan in which the step becomes active. */
    P1(false),
    /** Pulse, falling: statements run once in the scan in which the step is left. */
    P0(false);

    private final boolean timed;

    Qualifier(boolean timed) {
      this.timed = timed;
    }

    /** Whether a time belongs to it. */
    public boolean isTimed() {
      return timed;
    }

    /** Whether it runs statements without making a BOOL TRUE. */
    public boolean isForStatements() {
      return this == P1 || this == P0;
    }
  }

  /**
   * An action on a BOOL output or internal, or on statements of the sequence.
   *
   * @param micros the time of a qualifier that has one, above 0; else 0
   */
  public record Action(Qualifier qualifier, long micros, Name target) {}

  /** A transition: needs all of {@code from}, activates all of {@code to}. */
  public record Transition(List<Name> from, List<Name> to, SourceText when, Position position) {}

  /**
   * While {@code when} holds the sequence stands in {@code to} alone, its stored actions cleared.
   */
  public record Abort(SourceText when, Name to) {}

  /**
   * While held the sequence stands still.
   *
   * @param restart its rising edge ends the hold once {@code when} is FALSE; null when the hold
   *     ends with {@code when}
   */
  public record Hold(SourceText when, SourceText restart) {}

  /** While {@code when} holds, the sequence moves at a rising edge of {@code next} alone. */
  public record Manual(SourceText when, SourceText next) {}

  /** How much an alarm matters. */
  public enum Priority {
    LOW,
    MEDIUM,
    HIGH
  }

  /**
   * A limit on a quantity.
   *
   * @param high whether the alarm is above it; below it otherwise
   * @param value the quantity, a number
   * @param at the limit; reaching it counts
   * @param deadband how far the quantity must come back past the limit; null for not at all
   */
  public record Limit(boolean high, SourceText value, SourceText at, SourceText deadband) {}

  /**
   * An alarm.
   *
   * @param when its condition; null when it has a limit
   * @param limit null when it has a condition
   * @param onDelayMicros how long the condition must last before it counts
   * @param offDelayMicros how long it must be gone before that counts
   * @param needsAcknowledge whether it waits for acknowledgement
   * @param latching whether it stays after its condition until it is reset
   * @param reAlarmMicros after so long acknowledged and active it is unacknowledged again; 0 never
   * @param shelfMicros how long it is shelved at most
   * @param group whose acknowledgement reaches it too; null for none
   * @param suppressed by design while this holds; null for never
   * @param retain whether it goes on after a warm restart as it was
   */
  public record Alarm(
      String name,
      SourceText when,
      Limit limit,
      Priority priority,
      long onDelayMicros,
      long offDelayMicros,
      boolean needsAcknowledge,
      boolean latching,
      long reAlarmMicros,
      long shelfMicros,
      Name group,
      SourceText suppressed,
      boolean retain,
      String text,
      Position position) {

    /**
     * What an operator may tell an alarm; each is an operator point {@code alarms.NAME.COMMAND}.
     */
    public enum Command {
      /** Confirms that it was seen. */
      ACKNOWLEDGE,
      /** Ends a latched alarm that is acknowledged. */
      RESET,
      /** Sets it aside for a time. */
      SHELVE,
      /** Sets it aside until it has come and gone once. */
      SHELVE_ONCE,
      /** Ends the shelf. */
      UNSHELVE,
      /** Sets it aside for as long as it is TRUE, for maintenance. */
      OUT_OF_SERVICE;

      /** The point of this command. */
      public String point(String alarm) {
        return "alarms." + alarm + "." + name().toLowerCase(Locale.ROOT);
      }
    }
  }

  /** The operator point that acknowledges a group of alarms. */
  public static String groupPoint(String group) {
    return "alarms.groups." + group + ".acknowledge";
  }
}
