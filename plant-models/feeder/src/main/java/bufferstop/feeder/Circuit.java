package bufferstop.feeder;

import bufferstop.spi.PlantFault;
import java.util.ArrayList;
import java.util.List;

/** What all parts of one feeder share: network, source, clock, ports, events, faults. */
final class Circuit {

  /** What sets or clears a fault. */
  interface Switch {
    /**
     * @param amount in the unit the fault declares
     */
    void set(boolean active, double amount);
  }

  final Network network;
  final Source source;
  final double nominalHertz;
  final Ports ports = new Ports();
  final Happenings happenings;
  final Angle angle = new Angle();
  private final List<PlantFault> faults = new ArrayList<>();
  private final List<Switch> switches = new ArrayList<>();
  private boolean disturbed; // a fault was set or cleared since the last step

  /** Of the step at work. */
  long micros;

  double seconds;
  long nowMicros;

  /** The network is another than a step before. */
  boolean changed = true;

  /** It was switched, or has moved for half a cycle: what is read slowly looks again. */
  boolean renewed = true;

  Circuit(Network network, Source source, double nominalHertz, Happenings happenings) {
    this.network = network;
    this.source = source;
    this.nominalHertz = nominalHertz;
    this.happenings = happenings;
  }

  /** A fault that is there or not. */
  void fault(String name, String text, Switch change) {
    fault(new PlantFault(name, "", 0, 0, text), change);
  }

  /** A fault with an amount. */
  void fault(PlantFault fault, Switch change) {
    faults.add(fault);
    switches.add(change);
  }

  List<PlantFault> faults() {
    return List.copyOf(faults);
  }

  void set(int fault, boolean active, double amount) {
    if (fault < 0 || fault >= switches.size()) {
      throw new IllegalArgumentException(
          "no fault " + fault + ", there are 0 to " + (switches.size() - 1));
    }
    switches.get(fault).set(active, amount);
    disturbed = true;
  }

  /** Whether a fault was set or cleared since this was last asked. */
  boolean takeDisturbed() {
    boolean was = disturbed;
    disturbed = false;
    return was;
  }
}
