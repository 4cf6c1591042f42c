package bufferstop.mixer;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.List;

/** The plant model {@code mixer}: a batch mixer with silos, weigh hopper and heated vessel. */
public final class MixerModel implements PlantModel {

  /** Called by {@link java.util.ServiceLoader}. */
  public MixerModel() {}

  @Override
  public String name() {
    return "mixer";
  }

  @Override
  public List<Parameter> schema() {
    return MixerSchema.PARAMETERS;
  }

  /**
   * {@inheritDoc} Problems are a mixer without ingredients, a high contact above the edge, an empty
   * contact above the high one, and a transmitter without a range.
   */
  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    if (settings.named("ingredients").isEmpty()) {
      problems.error(
          settings, "ingredients", "a mixer without ingredients", "at least one name", "");
    }
    Settings vessel = settings.item("vessel");
    below(vessel, "high", "capacity", "kg", problems);
    below(vessel, "empty", "high", "kg", problems);
    below(settings.item("heating"), "low", "high", "°C", problems);
    return new Mixer(settings);
  }

  private static void below(Settings at, String less, String more, String unit, Problems problems) {
    if (at.number(less) >= at.number(more)) {
      problems.error(
          at,
          less,
          "`%s`, %s %s, is not below `%s`, %s %s"
              .formatted(less, at.number(less), unit, more, at.number(more), unit),
          "less than " + at.number(more) + " " + unit,
          "");
    }
  }
}
