package bufferstop.model;

import java.util.List;
import java.util.Locale;

/**
 * One scenario: a file, or one row of its table with one seed.
 *
 * @param name for people
 * @param file as the user named it
 * @param requirement what it proves something about, several joined by commas, may be empty
 * @param tags words to choose scenarios by
 * @param reads every file it was read from
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
    List<String> tags,
    List<String> reads,
    long forMicros,
    long seed,
    List<Tree.Entry> settings,
    List<Stimulus> stimuli,
    List<Expectation> expectations,
    Position position) {

  /** One that does nothing and expects nothing. */
  public static final Scenario NOTHING =
      new Scenario(
          "nothing",
          "",
          "",
          List.of(),
          List.of(),
          0,
          1,
          List.of(),
          List.of(),
          List.of(),
          Position.ofFile(""));

  /** The same settings, seed and stimuli for another time, with nothing expected. */
  public Scenario lasting(long micros) {
    return new Scenario(
        name, file, requirement, tags, reads, micros, seed, settings, stimuli, List.of(), position);
  }

  /** Its name as the name of a file, with the seed where that is not the usual one. */
  public String slug() {
    String words = name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    return words.replaceAll("^-|-$", "") + (seed == 1 ? "" : "-seed-" + seed);
  }

  /**
   * When something is done.
   *
   * @param when condition on the field; null for the beginning of the run, or for what it follows
   * @param follows name of an earlier stimulus, empty for none
   * @param afterMicros delay from the first scan that shows the condition, from the stimulus it
   *     follows, or from time zero
   * @param times how often at most; 0 for no limit
   * @param everyMicros from one time to the next; 0 where each time has its own cause
   */
  public record Trigger(
      SourceText when, String follows, long afterMicros, long times, long everyMicros) {

    /** Once. */
    public static Trigger once(SourceText when, long afterMicros) {
      return new Trigger(when, "", afterMicros, 1, 0);
    }
  }

  /**
   * Something done to the rig.
   *
   * @param id what others follow it by, may be empty
   */
  public record Stimulus(String id, Trigger trigger, Deed deed, Position position) {}

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

  /**
   * Where a value is put in: an operator point, written as an HMI would, or a wire, whose far end
   * is held at the value as by the fault {@code stuck}.
   */
  public record Place(boolean wire, Name name) {}

  /**
   * Leads a value from one number to another, one step a scan.
   *
   * @param overMicros how long it takes
   * @param forMicros when a wire is let go again, after its beginning; 0 for never
   */
  public record Ramp(Place on, SourceText from, SourceText to, long overMicros, long forMicros)
      implements Deed {}

  /**
   * Gives a value for a time, then what was there before.
   *
   * @param value null for TRUE
   */
  public record Pulse(Place on, SourceText value, long forMicros) implements Deed {}

  /** Misses scans, as a machine that is too busy does. */
  public record Skip(long periods, Position at) implements Deed {}

  /**
   * Switches the controller off and on again, the field going on.
   *
   * @param cold whether it loses what it retains, too
   * @param forMicros how long it is off
   */
  public record Restart(boolean cold, long forMicros) implements Deed {}

  /** Forces inputs and outputs. */
  public record Force(List<Assignment> values) implements Deed {}

  /** Takes the force from a point; from all where there is no point. */
  public record Unforce(Name point) implements Deed {}

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

  /**
   * Named values run as they did in a stored run.
   *
   * @param run as stored
   * @param tolerances how far a number may be off, by name; the name {@code *} for all others
   * @param shiftMicros how much earlier or later a value may be there
   */
  public record Golden(
      StoredRun run,
      List<Assignment> tolerances,
      long shiftMicros,
      Interval during,
      String text,
      String unit,
      Position position)
      implements Expectation {}

  /**
   * A stored run: each row holds from its time on.
   *
   * @param names of its columns
   * @param micros logical time of each row, rising
   * @param values by row, as written; empty where a row says nothing
   */
  public record StoredRun(
      Name file, List<String> names, long[] micros, List<List<String>> values) {}
}
