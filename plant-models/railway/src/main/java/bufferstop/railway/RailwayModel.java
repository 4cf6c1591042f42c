package bufferstop.railway;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.List;

/**
 * The plant model {@code railway}: a dead-end line between two buffer stops. The coordinate runs in
 * metres from the pit end (low) to the shed end (high); speed is positive towards the shed.
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
   * {@inheritDoc} Problems are things off the line, vehicles that share a place or stand beyond an
   * end, a sensor that could never change, and a hopper whose flow is given twice or not at all.
   */
  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    LineData line = LineData.read(settings);
    new LineCheck(line, problems).check();
    return new RailwayPlant(line, random);
  }
}
