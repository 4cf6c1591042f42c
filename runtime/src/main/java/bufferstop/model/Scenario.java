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

  /** The condition holds in every scan. */
  public record Always(SourceText that, String text, String unit, Position position)
      implements Expectation {}

  /** The condition holds in no scan. */
  public record Never(SourceText that, String text, String unit, Position position)
      implements Expectation {}

  /** The condition holds in some scan up to a time; 0 for the end of the run. */
  public record Eventually(
      SourceText that, long withinMicros, String text, String unit, Position position)
      implements Expectation {}

  /** Whenever the first holds, the second holds in some scan from then on up to a time. */
  public record Response(
      SourceText when,
      long withinMicros,
      SourceText that,
      String text,
      String unit,
      Position position)
      implements Expectation {}
}
