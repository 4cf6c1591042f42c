package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A fault on a line with its port. */
final class FaultPart implements Part {
  private final Circuit circuit;
  private final LineFault fault;
  private final int present;
  private final int amperes;
  private final int began;
  private final int ended;
  private boolean was;

  FaultPart(Circuit circuit, LineFault fault) {
    this.circuit = circuit;
    this.fault = fault;
    String name = fault.data.name();
    present = circuit.ports.contact("fault." + name + ".present", "This fault is on its line");
    amperes = circuit.ports.quantity("fault." + name + ".amperes", "A", "Current of this fault");
    String text = "fault " + name + " on line " + fault.data.line();
    began = circuit.happenings.declare("fault." + name + ".began", "A", text + " began");
    ended = circuit.happenings.declare("fault." + name + ".ended", "", text + " is gone");
    circuit.fault(
        name,
        fault.data.joins()
            + " on line "
            + fault.data.line()
            + ", "
            + fault.data.behaviour().name().toLowerCase(java.util.Locale.ROOT),
        (on, x) -> {
          if (on || fault.present()) {
            circuit.network.change();
          }
          fault.set(on);
        });
  }

  @Override
  public void after() {
    if (fault.present() != was) {
      was = fault.present();
      circuit.happenings.happened(was ? began : ended, was ? fault.amperes() : 0);
    }
    if (fault.step(circuit.seconds, circuit.network.v)) {
      circuit.network.change();
    }
    show();
  }

  @Override
  public void show() {
    circuit.ports.set(present, fault.present());
    circuit.ports.set(amperes, fault.amperes());
  }

  @Override
  public boolean idle() {
    return !fault.wanted() && was == fault.present();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    fault.save(to);
    to.writeBoolean(was);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    fault.restore(from);
    was = from.readBoolean();
  }
}
