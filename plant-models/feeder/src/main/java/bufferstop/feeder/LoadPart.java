package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A load with its ports. */
final class LoadPart implements Part {
  private final Circuit circuit;
  private final Load load;
  private final int on;
  private final int dcAmperes; // -1 without a port
  private final int share; // -1 without a port
  private final int volts;
  private final int amperes;
  private final int watts;
  private final int vars;
  private final int dcVolts;
  private final int speed;
  private boolean moved;

  LoadPart(Circuit circuit, Load load) {
    this.circuit = circuit;
    this.load = load;
    Ports ports = circuit.ports;
    String head = "load." + load.data.name();
    boolean dc = load.data.hasDcPort();
    on = ports.command(head + ".on", "Its own switch is closed", true);
    dcAmperes =
        dc ? ports.amount(head + ".dc_amperes", "A", "Direct current drawn from it", 0) : -1;
    boolean constant = dc || load.data.kind() == LoadData.Kind.MOTOR;
    share =
        constant ? -1 : ports.amount(head + ".share", "", "Share of its power that it takes", 1);
    volts = ports.quantity(head + ".volts", "V", "Voltage across it, mean of its phases");
    amperes = ports.quantity(head + ".amperes", "A", "Fundamental current of a phase");
    watts = ports.quantity(head + ".watts", "W", "Fundamental power");
    vars = ports.quantity(head + ".vars", "var", "Fundamental reactive power");
    dcVolts = dc ? ports.quantity(head + ".dc_volts", "V", "Direct voltage it gives") : -1;
    boolean motor = load.data.kind() == LoadData.Kind.MOTOR;
    speed = motor ? ports.quantity(head + ".speed", "", "Share of synchronous speed") : -1;
  }

  /** Whether its ports ask for something new. */
  boolean asks(double[] in) {
    return load.asks(in[on] != 0, dcAmperes(in), share(in));
  }

  private double dcAmperes(double[] in) {
    return dcAmperes < 0 ? 0 : in[dcAmperes];
  }

  private double share(double[] in) {
    return share < 0 ? 1 : in[share];
  }

  @Override
  public void before(double[] in) {
    if (load.command(in[on] != 0, dcAmperes(in), share(in))) {
      circuit.network.change();
    }
    moved = load.step(circuit.seconds);
    if (moved) {
      circuit.network.move(load);
    }
  }

  @Override
  public void after() {
    show();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    ports.set(volts, load.voltageShare() * load.legVolts);
    ports.set(amperes, load.amperes());
    ports.set(watts, load.watts());
    ports.set(vars, load.vars());
    if (dcVolts >= 0) {
      ports.set(dcVolts, load.dcVolts());
    }
    if (speed >= 0) {
      ports.set(speed, load.speed());
    }
  }

  @Override
  public boolean idle() {
    return !moved && load.idle();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    load.save(to);
    to.writeBoolean(moved);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    load.restore(from);
    moved = from.readBoolean();
  }
}
