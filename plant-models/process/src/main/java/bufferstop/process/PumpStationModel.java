package bufferstop.process;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.List;

/** The plant model {@code pump_station}: a wet well that pumps keep from overflowing. */
public final class PumpStationModel implements PlantModel {
  private static final List<Parameter> FLOAT =
      List.of(
          Parameter.number("on", "m", 0, 100, "Level at which it closes"),
          Parameter.number("off", "m", 0, 100, "Level below which it opens"));

  private static final List<Parameter> PUMP =
      List.of(
          Parameter.number("shut_off_head", "m", 0, 1000, "Head at full speed without flow"),
          Parameter.number("head_loss", "s2/m5", 1e-6, 1e12, "Loss of head over flow squared"),
          Parameter.number("run_up", "s", 0, 100, "Time constant of its speed").orElse("0.5"),
          Parameter.number("rated_current", "A", 1e-3, 1e4, "Motor current at rated flow"),
          Parameter.number("rated_flow", "m3/s", 1e-6, 100, "Flow at that current"),
          Parameter.number("idle_share", "", 0, 1, "Current without flow over rated").orElse("0.5"),
          Parameter.number("locked_share", "", 1, 20, "Current when blocked over rated")
              .orElse("6"),
          Parameter.number("overload", "", 1, 10, "Current over rated that it carries for ever")
              .orElse("1.15"),
          Parameter.number("heating", "s", 1e-3, 1e5, "Thermal time constant").orElse("60"));

  private static final List<Parameter> SCHEMA =
      List.of(
          Parameter.number("area", "m2", 1e-6, 1e6, "Area of the well"),
          Parameter.number("depth", "m", 1e-3, 100, "Level at which it overflows"),
          Parameter.number("level", "m", 0, 100, "Level at the start").orElse("0"),
          Parameter.number("inflow", "m3/s", 0, 1000, "Inflow while its port is not wired")
              .orElse("0"),
          Parameter.number("lift", "m", 0, 1000, "Height of the outlet above the bottom"),
          Parameter.number("main_loss", "s2/m5", 0, 1e12, "Loss of head in the rising main"),
          Parameter.named("pumps", PUMP, "Pumps by name"),
          Parameter.named("floats", FLOAT, "Float switches by name"));

  /** Called by {@link java.util.ServiceLoader}. */
  public PumpStationModel() {}

  @Override
  public String name() {
    return "pump_station";
  }

  @Override
  public List<Parameter> schema() {
    return SCHEMA;
  }

  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    if (settings.number("level") > settings.number("depth")) {
      problems.error(
          settings,
          "level",
          "the well begins fuller than it is deep",
          "at most " + settings.number("depth") + " m",
          "lower level or raise depth");
    }
    settings
        .named("pumps")
        .forEach(
            (name, s) -> {
              if (s.number("shut_off_head") <= settings.number("lift") - settings.number("depth")) {
                problems.error(
                    s,
                    "shut_off_head",
                    "pump `" + name + "` cannot lift anything, not even from a full well",
                    "above " + (settings.number("lift") - settings.number("depth")) + " m",
                    "raise shut_off_head or lower lift");
              }
            });
    settings
        .named("floats")
        .forEach(
            (name, s) -> {
              if (s.number("off") >= s.number("on")) {
                problems.error(
                    s,
                    "off",
                    "float `" + name + "` would open where it closes",
                    "below on, " + s.number("on") + " m",
                    "exchange on and off");
              }
            });
    return new PumpStation(settings);
  }
}
