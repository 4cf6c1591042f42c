package bufferstop.railway;

import static bufferstop.spi.Parameter.bool;
import static bufferstop.spi.Parameter.choice;
import static bufferstop.spi.Parameter.item;
import static bufferstop.spi.Parameter.number;

import bufferstop.spi.Parameter;
import java.util.List;

/** The parameters of the kinds of traction. */
final class TractionSchema {
  private static final double SMALL = RailwaySchema.SMALL;

  private TractionSchema() {}

  static List<Parameter> dcMotor() {
    return List.of(
        number("resistance", "ohm", SMALL, 1e6, "Resistance of motor and leads"),
        number("constant", "V s/rad", SMALL, 1e4, "Motor constant, equally N m/A"),
        gear(),
        wheelRadius(),
        frictionTorque(),
        rotorInertia(),
        number("inductance", "H", 0, 1000, "Inductance of motor and leads").orElse("0"),
        number("viscous_friction", "N m s/rad", 0, 1e6, "Friction torque by speed").orElse("0"));
  }

  static List<Parameter> seriesMotor() {
    return List.of(
        number("resistance", "ohm", SMALL, 1e6, "Resistance of motor and leads"),
        number("reactance", "ohm", 0, 1e6, "Reactance at the supply's frequency"),
        number("constant", "H", SMALL, 1e4, "Torque over current squared"),
        gear(),
        wheelRadius(),
        frictionTorque(),
        rotorInertia(),
        item("reverser", reverser(), "Sequence reverser; without one it runs forward").orElse(""));
  }

  private static List<Parameter> reverser() {
    return List.of(
        number("steps_after", "s", SMALL, 100, "Interruption of track power that steps it"),
        number("resets_after", "s", 0, 1e6, "Interruption that puts it back to forward; 0: never")
            .orElse("0"),
        choice(
                "start",
                List.of("forward", "neutral_1", "reverse", "neutral_2"),
                "State at the start: forward, neutral_1, reverse, neutral_2, and again")
            .orElse("forward"),
        bool("locked", "Its lever holds the present state").orElse("FALSE"));
  }

  static List<Parameter> drive() {
    return List.of(
        number("effort", "N", 0, 1e8, "Greatest tractive effort at the rail"),
        number("power", "W", SMALL, 1e9, "Greatest power at the rail"),
        number("efficiency", "", 0.01, 1, "Power at the rail over power from the feed").orElse("1"),
        bool("electric", "Needs its feed and draws from it").orElse("FALSE"),
        number("rotating_share", "", 1e-6, 1, "Rotating mass over mass").orElse("0.05"),
        item("driver", driver(), "Somebody who drives by speed and signals").orElse(""));
  }

  private static List<Parameter> driver() {
    return List.of(
        number("speed", "m/s", 0, 1000, "Speed the driver keeps where no limit is lower"),
        number("braking", "m/s2", SMALL, 10, "Retardation the driver reckons with"),
        number("margin", "m", 0, 1000, "Distance before a signal at which the driver would stop")
            .orElse("0"));
  }

  private static Parameter gear() {
    return number("gear", "", SMALL, 1e4, "Motor turns for one turn of the wheels");
  }

  private static Parameter wheelRadius() {
    return number("wheel_radius", "m", SMALL, 10, "Radius of the driven wheels");
  }

  private static Parameter frictionTorque() {
    return number("friction_torque", "N m", 0, 1e6, "Friction torque at the motor shaft");
  }

  private static Parameter rotorInertia() {
    return number("rotor_inertia", "kg m2", 1e-12, 1e6, "Inertia at the motor shaft");
  }
}
