package bufferstop.railway;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.ProblemCount;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.List;

/**
 * The plant model {@code railway}: a graph of track, trains on it, and what stands beside it. A
 * place is a segment and a distance post in metres, which grows from the segment's low end to its
 * high end.
 */
public final class RailwayModel implements PlantModel {

  /** Called by {@link java.util.ServiceLoader}. */
  public RailwayModel() {}

  @Override
  public String name() {
    return "railway";
  }

  @Override
  public List<Parameter> schema() {
    return RailwaySchema.PARAMETERS;
  }

  /**
   * {@inheritDoc} Problems are gaps in the track, ends joined twice, names that name nothing,
   * places off their segment, vehicles that share a place or stand beyond the track, and parts that
   * could never work.
   */
  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    ProblemCount counted = new ProblemCount(problems);
    LineData line = new LineReader(settings, new Names(counted)).read();
    if (!line.track().segments().isEmpty()) {
      new LineCheck(line, counted).check();
    }
    return counted.errors() > 0 ? null : new RailwayPlant(line, random);
  }
}
