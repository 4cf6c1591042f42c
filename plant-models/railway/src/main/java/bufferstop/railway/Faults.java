package bufferstop.railway;

import bufferstop.spi.PlantFault;
import java.util.List;

/** Faults of the line's own; those of wires belong to the host. */
final class Faults {
  static final List<PlantFault> ALL =
      List.of(
          onOff("coupler_will_not_couple", "couplers meet but do not couple"),
          onOff("uncoupler_jammed", "the uncoupler does not rise"),
          onOff("motor_open", "the motor circuit is open: no pull, no braking"),
          new PlantFault("wheel_slip", "1", 0, 1, "the adhesion is multiplied by the amount"),
          onOff("hopper_gate_stuck", "the hopper gate stays as far open as it is"));

  private Faults() {}

  private static PlantFault onOff(String name, String text) {
    return new PlantFault(name, "", 0, 0, text);
  }

  static void set(Line line, int fault, boolean active, double amount) {
    switch (fault) {
      case 0 -> line.contacts.refuseCoupling(active);
      case 1 -> line.uncoupler.jam(active);
      case 2 -> line.traction.breakCircuit(active);
      case 3 -> line.forces.setAdhesionShare(active ? amount : 1);
      case 4 -> {
        if (line.hopper != null) {
          line.hopper.stick(active);
        }
      }
      default -> throw new IllegalArgumentException("no fault " + fault + ", there are 0 to 4");
    }
  }
}
