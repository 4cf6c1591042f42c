package bufferstop.model;

import bufferstop.model.Project.Source;
import bufferstop.model.Scenario.Deed;
import java.util.List;

/**
 * What a live run left behind: the project it ran, and everything that came from outside.
 *
 * @param version of the product that made it
 * @param seed of every random stream
 * @param withPlant whether the loop was closed through the simulated plant
 * @param sources the files of the project, in the order of reading
 * @param retained what was brought back before the first scan, a line each
 * @param events in their order
 * @param marks in their order
 * @param lastPeriod the last scan it knows of; negative for none
 * @param sha256 identity of the whole run; empty when it was cut off
 */
public record Recording(
    String project,
    String projectSha256,
    String version,
    long seed,
    boolean withPlant,
    List<Source> sources,
    List<String> retained,
    List<Event> events,
    List<Mark> marks,
    long lastPeriod,
    String sha256) {

  /**
   * Something done from outside.
   *
   * @param period the one that was due when it was done; a scan that came late came after it
   */
  public record Event(long period, Deed deed) {}

  /**
   * What the trace came to.
   *
   * @param period of the scan after which it was noted
   * @param crc CRC-32C of the trace so far
   */
  public record Mark(long period, long crc) {}
}
