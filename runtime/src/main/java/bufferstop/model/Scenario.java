package bufferstop.model;

import java.util.List;

/**
 * One scenario file.
 *
 * @param name for people
 * @param file as the user named it
 * @param requirement what it proves something about, may be empty
 * @param forMicros how long it runs, logical time
 * @param seed of every random stream
 * @param settings of plants, each under the plant's name, laid over those of the project
 * @param stimuli what is done to the rig
 * @param expectations what must hold
 */
public record Scenario(
    String name,
    String file,
    String requirement,
    long forMicros,
    long seed,
    List<Tree.Entry> settings,
    List<Stimulus> stimuli,
    List<Expectation> expectations,
    Position position) {

  /** The same with another seed. */
  public Scenario withSeed(long other) {
    return new Scenario(
        name, file, requirement, forMicros, other, settings, stimuli, expectations, position);
  }

  /**
   * When something is done.
   *
   * @param when condition on the field; null for the beginning of the run
   * @param afterMicros delay from the first scan that shows the condition, or from time zero
   */
  public record Trigger(SourceText when, long afterMicros) {}

  /** Something done once to the rig. */
  public record Stimulus(Trigger trigger, Deed deed, Position position) {}

  /** What is done. */
  public sealed interface Deed {}

  /**
   * Writes operator points as an HMI would, all in one request.
   *
   * @param refused TRUE when the write is out of range and must be refused
   */
  public record Write(List<Assignment> values, boolean refused) implements Deed {}

  /** One written value. */
  public record Assignment(Name point, SourceText value) {}

  /**
   * Presses a push button.
   *
   * @param forMicros how long; a latching one stays pressed regardless
   */
  public record Press(Name element, long forMicros) implements Deed {}

  /** Releases a latching push button. */
  public record Release(Name element) implements Deed {}

  /** Turns a selector to one of its positions. */
  public record Turn(Name element, Name to) implements Deed {}

  /**
   * Sets a fault.
   *
   * @param forMicros how long it lasts; 0 until cleared
   */
  public record Inject(Fault fault, long forMicros) implements Deed {}

  /** Clears whatever fault is on a target. */
  public record Clear(Fault.Target on) implements Deed {}

  /** What must hold. */
  public sealed interface Expectation {

    /** As the user wrote it, for reports. */
    String text();

    /** Unit of the margin as the user gave it, empty to take that of the quantity. */
    String unit();

    Position position();
  }

  /**
   * A piece of the run, both ends in it.
   *
   * @param fromMicros logical time of its beginning
   * @param toMicros logical time of its end; 0 for the end of the run
   */
  public record Interval(long fromMicros, long toMicros) {

    /** The run from its beginning to its end. */
    public static final Interval WHOLE = new Interval(0, 0);

    /** Whether a scan at this time belongs to it. */
    public boolean holds(long micros) {
      return micros >= fromMicros && (toMicros == 0 || micros <= toMicros);
    }

    /** Whether scans that belong to it may follow the one at this time. */
    public boolean isOpenAfter(long micros) {
      return toMicros > 0 && micros < toMicros;
    }
  }

  /** The condition holds in every scan of the interval. */
  public record Always(
      SourceText that, Interval during, String text, String unit, Position position)
      implements Expectation {}

  /** The condition holds in no scan of the interval. */
  public record Never(SourceText that, Interval during, String text, String unit, Position position)
      implements Expectation {}

  /** The condition holds in some scan of the interval. */
  public record Eventually(
      SourceText that, Interval during, String text, String unit, Position position)
      implements Expectation {}

  /**
   * The first condition holds from the first scan on until the second does, in a scan of the
   * interval; in that scan it need not hold any more.
   */
  public record Until(
      SourceText hold,
      SourceText until,
      Interval during,
      String text,
      String unit,
      Position position)
      implements Expectation {}

  /** The first condition holds in no scan before the second has held, if it ever does. */
  public record Precedence(
      SourceText never, SourceText before, String text, String unit, Position position)
      implements Expectation {}

  /**
   * Whenever the first holds, the second holds in some scan from then on.
   *
   * @param afterMicros not sooner than this after the first
   * @param withinMicros not later than this after the first
   */
  public record Response(
      SourceText when,
      long afterMicros,
      long withinMicros,
      SourceText that,
      Interval during,
      String text,
      String unit,
      Position position)
      implements Expectation {}

  /**
   * Whenever the first holds, the second holds in every scan from then on.
   *
   * @param afterMicros from so long after the first
   * @param lastingMicros up to so long after the first
   */
  public record Persistence(
      SourceText when,
      long afterMicros,
      long lastingMicros,
      SourceText that,
      Interval during,
      String text,
      String unit,
      Position position)
      implements Expectation {}

  /** Whenever the condition comes true it stays so for a time. */
  public record Stable(
      SourceText that, long lastingMicros, String text, String unit, Position position)
      implements Expectation {}

  /** The condition comes true a number of times in the interval. */
  public record Count(
      SourceText that,
      long least,
      long greatest,
      Interval during,
      String text,
      String unit,
      Position position)
      implements Expectation {}

  /** The condition holds in the last scan. */
  public record AtEnd(SourceText that, String text, String unit, Position position)
      implements Expectation {}
}
