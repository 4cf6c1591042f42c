package bufferstop.mixer;

import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.named;
import static bufferstop.spi.Parameter.number;

import bufferstop.spi.Parameter;
import java.util.List;

/** The parameters of a mixer, as plain data. */
final class MixerSchema {
  private static final double HEAVY = 1e6; // kg
  private static final double LONG = 3600; // s

  static final List<Parameter> PARAMETERS =
      List.of(
          named(
              "ingredients",
              List.of(
                  number("flow", "kg/s", 1e-6, HEAVY, "Through the open valve"),
                  travel(),
                  number("fall", "s", 0, LONG, "Mean time from the valve into the hopper")
                      .orElse("0.4"),
                  number("stock", "kg", 0, 1e9, "In the silo at time zero").orElse("100000")),
              "Silos above the weigh hopper, by name"),
          item("hopper", hopper(), "Weigh hopper"),
          item("vessel", vessel(), "Mixing vessel below it"),
          item("heating", heating(), "Jacket of the vessel and its temperature transmitter"),
          item("agitator", agitator(), "Agitator in the vessel"));

  private MixerSchema() {}

  private static Parameter travel() {
    return number("travel", "s", 0.001, LONG, "Time of a valve from one end to the other")
        .orElse("0.8");
  }

  private static List<Parameter> hopper() {
    return List.of(
        number("capacity", "kg", 1e-6, HEAVY, "More than that spills"),
        number("range", "kg", 1e-6, HEAVY, "Mass at 20 mA of the load cell"),
        number("lag", "s", 0, LONG, "Time constant of the load cell's signal").orElse("0.2"),
        number("flow", "kg/s", 1e-6, HEAVY, "Through the open gate into the vessel"),
        travel());
  }

  private static List<Parameter> vessel() {
    return List.of(
        number("capacity", "kg", 1e-6, HEAVY, "More than that spills"),
        number("high", "kg", 1e-6, HEAVY, "The contact `vessel.high` closes there"),
        number("empty", "kg", 0, HEAVY, "The contact `vessel.empty` closes below"),
        number("start", "kg", 0, HEAVY, "Left in it at time zero").orElse("0"),
        number("flow", "kg/s", 1e-6, HEAVY, "Through the open discharge"),
        travel());
  }

  private static List<Parameter> heating() {
    return List.of(
        number("power", "W", 0, 1e9, "Of the jacket at full heat"),
        number("lag", "s", 0, LONG, "Time constant of the jacket").orElse("20"),
        number("loss", "W/K", 0, 1e9, "From the vessel to its surroundings"),
        number("body", "J/K", 1e-3, 1e12, "Heat capacity of the empty vessel"),
        number("specific", "J/(kg K)", 0, 1e6, "Specific heat capacity of what is in it"),
        number("ambient", "°C", -60, 60, "Surroundings, and everything fed").orElse("10"),
        number("low", "°C", -273, 2000, "Temperature at 4 mA of the transmitter").orElse("0"),
        number("high", "°C", -273, 2000, "Temperature at 20 mA").orElse("100"));
  }

  private static List<Parameter> agitator() {
    return List.of(
        number("speed", "rad/s", 1e-3, 1e4, "At full speed"),
        number("run_up", "s", 0, LONG, "Time constant of its speed").orElse("0.8"),
        number("mixing", "s", 1e-3, LONG, "Time constant of mixing at full speed"));
  }
}
