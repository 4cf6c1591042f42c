package bufferstop.model;

import java.util.List;
import java.util.Map;

/**
 * The declared controller, every list in file order.
 *
 * @param points inputs, outputs, operator points and internals
 * @param blocks standard function blocks
 * @param interlocks permissives, interlocks and trips
 * @param sequences sequential function charts
 * @param logic Structured Text, empty when there is none
 * @param alarms alarms
 * @param acknowledge its rising edge acknowledges every alarm; null when alarms need none
 */
public record Controller(
    List<Point> points,
    List<Block> blocks,
    List<Interlock> interlocks,
    List<Sequence> sequences,
    SourceText logic,
    List<Alarm> alarms,
    SourceText acknowledge) {

  /**
   * One instance of a standard function block.
   *
   * @param name of the instance
   * @param block the standard's name: {@code TON}
   * @param inputs expressions by the standard's input names, upper case, in file order
   */
  public record Block(String name, Name block, Map<Name, SourceText> inputs, Position position) {}

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
   */
  public record Interlock(
      String name,
      InterlockKind kind,
      List<Cause> causes,
      SourceText reset,
      List<Name> makesSafe,
      String text,
      Position position) {}

  /** One named condition of an interlock. */
  public record Cause(String name, SourceText condition, Position position) {}

  /**
   * A sequential function chart.
   *
   * @param abort leads to one step whenever it holds; null when there is none
   */
  public record Sequence(
      String name,
      List<Step> steps,
      List<Transition> transitions,
      Abort abort,
      Position position) {}

  /**
   * A step.
   *
   * @param withinMicros longest stay before it is late; 0 for no limit
   */
  public record Step(
      String name,
      boolean initial,
      List<Action> actions,
      long withinMicros,
      String text,
      Position position) {}

  /** What an action does to its target while its step is active. */
  public enum Qualifier {
    /** Non-stored: TRUE while the step is active. */
    N,
    /** Set, until R. */
    S,
    /** Overriding reset. */
    R
  }

  /** An action on a BOOL output or internal. */
  public record Action(Qualifier qualifier, Name target) {}

  /** A transition: needs all of {@code from}, activates all of {@code to}. */
  public record Transition(List<Name> from, List<Name> to, SourceText when, Position position) {}

  /**
   * While {@code when} holds the sequence stands in {@code to} alone, its stored actions cleared.
   */
  public record Abort(SourceText when, Name to) {}

  /** How much an alarm matters. */
  public enum Priority {
    LOW,
    MEDIUM,
    HIGH
  }

  /**
   * An alarm.
   *
   * @param delayMicros how long the condition must last before it counts
   */
  public record Alarm(
      String name,
      SourceText when,
      Priority priority,
      long delayMicros,
      String text,
      Position position) {}
}
