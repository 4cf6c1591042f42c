package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A breaker with its ports and faults. */
final class BreakerPart implements Part {
  private final Circuit circuit;
  private final Breaker breaker;
  private final int close;
  private final int open;
  private final int supply;
  private final int contactA;
  private final int contactB;
  private final int charged;
  private final int operations;
  private final int wear;
  private int stuckContact = -1; // 0: 52a stays as it is, 1: 52b

  BreakerPart(Circuit circuit, Breaker breaker) {
    this.circuit = circuit;
    this.breaker = breaker;
    Ports ports = circuit.ports;
    String head = "breaker." + breaker.name;
    close = ports.command(head + ".close", "Closes it by hand, at its edge", false);
    open = ports.command(head + ".open", "Opens it by hand", false);
    supply = ports.command(head + ".trip_supply", "Supply of its trip coil", true);
    contactA = ports.contact(head + ".contact_a", "52a: TRUE while closed");
    contactB = ports.contact(head + ".contact_b", "52b: TRUE while open");
    charged = ports.contact(head + ".charged", "Its closing spring is charged");
    operations = ports.quantity(head + ".operations", "", "How often it has opened");
    wear = ports.quantity(head + ".wear", "", "Share of its electrical life used up");
    circuit.fault(
        head + ".trip_coil_open",
        "the trip coil or its wire is broken",
        (on, x) -> breaker.breakTripCoil(on));
    circuit.fault(head + ".stuck", "the mechanism does not open", (on, x) -> breaker.stick(on));
    circuit.fault(
        head + ".not_closing", "the mechanism does not close", (on, x) -> breaker.stickOpen(on));
    circuit.fault(
        head + ".contact_a_stuck", "52a stays as it is", (on, x) -> stuckContact = on ? 0 : -1);
    circuit.fault(
        head + ".contact_b_stuck", "52b stays as it is", (on, x) -> stuckContact = on ? 1 : -1);
  }

  @Override
  public void before(double[] in) {
    breaker.step(circuit.micros, in[supply] != 0, in[open] != 0, in[close] != 0);
  }

  @Override
  public void after() {
    show();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    if (stuckContact != 0) {
      ports.set(contactA, breaker.contactA());
    }
    if (stuckContact != 1) {
      ports.set(contactB, breaker.contactB());
    }
    ports.set(charged, breaker.charged());
    ports.set(operations, breaker.operations());
    ports.set(wear, breaker.wear());
  }

  @Override
  public boolean idle() {
    return breaker.idle();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    breaker.save(to);
    to.writeInt(stuckContact);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    breaker.restore(from);
    stuckContact = from.readInt();
  }
}
