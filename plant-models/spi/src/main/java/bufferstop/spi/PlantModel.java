package bufferstop.spi;

import java.util.List;

/**
 * A kind of plant, found by {@link java.util.ServiceLoader}. Stateless: one object opens many
 * plants.
 */
public interface PlantModel {

  /** The word after {@code model:} in a project file, lower case with underscores. */
  String name();

  /** The parameters a project file may give, as plain data; the same list at every call. */
  List<Parameter> schema();

  /**
   * Makes one plant.
   *
   * @param settings values already checked against {@link #schema()}: kinds, ranges, required ones
   * @param problems takes what the schema cannot say (two things at one place, a train longer than
   *     its track); the host prints each with file, line and column
   * @param random the plant's own stream, derived from the run's seed and the plant's name
   * @return the plant; ignored by the host when a problem was reported, never null otherwise
   */
  Plant open(Settings settings, Problems problems, RandomStream random);
}
