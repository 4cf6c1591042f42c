package bufferstop.railway;

import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.List;

/** The plant's input ports; those of what the line does not have are left out. */
final class Controls {
  private static final int CLOSE = 0;
  private static final int REVERSE = 1;
  private static final int VOLTS = 2;

  final List<Port> ports;
  private final int lift;
  private final int open;
  private final int tip;
  private final int enable;

  Controls(LineData line) {
    List<Port> list = new ArrayList<>();
    list.add(Port.contact("feed.close", "Traction contactor closed"));
    list.add(Port.contact("feed.reverse", "TRUE: towards the pit; FALSE: towards the shed"));
    list.add(Port.quantity("feed.volts", "V", "Supply of the line").orElse(line.supplyVolts()));
    lift = add(list, line.uncoupler() != null, "uncoupler.lift", "Raises the uncoupler");
    open = add(list, line.hopper() != null, "hopper.open", "Opens the hopper gate");
    tip = add(list, line.discharge() != null, "discharge.tip", "Tips the wagon at the discharge");
    enable = list.size();
    list.add(Port.contact("feed.enable", "Main contactor in series closed").orElse(1));
    ports = List.copyOf(list);
  }

  private static int add(List<Port> list, boolean there, String name, String text) {
    if (!there) {
      return -1;
    }
    list.add(Port.contact(name, text));
    return list.size() - 1;
  }

  /** Both contactors of the feed are closed. */
  boolean closed(double[] in) {
    return in[CLOSE] != 0 && in[enable] != 0;
  }

  boolean reversed(double[] in) {
    return in[REVERSE] != 0;
  }

  double volts(double[] in) {
    return in[VOLTS];
  }

  boolean lift(double[] in) {
    return on(in, lift);
  }

  boolean open(double[] in) {
    return on(in, open);
  }

  boolean tip(double[] in) {
    return on(in, tip);
  }

  private static boolean on(double[] in, int port) {
    return port >= 0 && in[port] != 0;
  }
}
