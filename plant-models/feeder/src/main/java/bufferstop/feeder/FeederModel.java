package bufferstop.feeder;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.List;

/**
 * The plant model {@code feeder}: a small radial network with its loads, faults, breakers, relays
 * and meters. For the bench alone: it is no protection study.
 */
public final class FeederModel implements PlantModel {

  /** Called by {@link java.util.ServiceLoader}. */
  public FeederModel() {}

  @Override
  public String name() {
    return "feeder";
  }

  @Override
  public List<Parameter> schema() {
    return FeederSchema.PARAMETERS;
  }

  /**
   * {@inheritDoc} Problems are networks that are not radial or not connected, parts at places that
   * do not exist, settings that contradict one another; devices in series that operate too close
   * after one another are warned of.
   */
  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    return new Assembly(settings, problems, random).plant();
  }
}
