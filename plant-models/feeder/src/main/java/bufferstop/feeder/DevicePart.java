package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Fuses, miniature breakers and coils with their ports. */
final class DevicePart {
  private DevicePart() {}

  /** A set of fuses. */
  static final class OfFuse implements Part {
    private final Circuit circuit;
    private final Fuse fuse;
    private final int replace;
    private final int blown;

    OfFuse(Circuit circuit, String name, Fuse fuse) {
      this.circuit = circuit;
      this.fuse = fuse;
      replace = circuit.ports.command("fuse." + name + ".replace", "New fuses, at its edge", false);
      blown = circuit.ports.contact("fuse." + name + ".blown", "A fuse of the set has blown");
    }

    @Override
    public void before(double[] in) {
      fuse.replace(in[replace] != 0);
    }

    @Override
    public void after() {
      fuse.step(circuit.seconds);
      show();
    }

    @Override
    public void show() {
      circuit.ports.set(blown, fuse.blown());
    }

    @Override
    public boolean idle() {
      return fuse.idle();
    }

    @Override
    public void save(DataOutput to) throws IOException {
      fuse.save(to);
    }

    @Override
    public void restore(DataInput from) throws IOException {
      fuse.restore(from);
    }
  }

  /** A miniature circuit-breaker. */
  static final class OfMcb implements Part {
    private final Circuit circuit;
    private final MiniatureBreaker mcb;
    private final int close;
    private final int open;
    private final int closed;

    OfMcb(Circuit circuit, String name, MiniatureBreaker mcb) {
      this.circuit = circuit;
      this.mcb = mcb;
      close = circuit.ports.command("mcb." + name + ".close", "Lever on, at its edge", false);
      open = circuit.ports.command("mcb." + name + ".open", "Lever off, at its edge", false);
      closed = circuit.ports.contact("mcb." + name + ".closed", "Closed");
    }

    @Override
    public void before(double[] in) {
      mcb.command(in[close] != 0, in[open] != 0);
    }

    @Override
    public void after() {
      mcb.step(circuit.seconds);
      show();
    }

    @Override
    public void show() {
      circuit.ports.set(closed, mcb.closed());
    }

    @Override
    public boolean idle() {
      return mcb.idle();
    }

    @Override
    public void save(DataOutput to) throws IOException {
      mcb.save(to);
    }

    @Override
    public void restore(DataInput from) throws IOException {
      mcb.restore(from);
    }
  }

  /** A coil. */
  static final class OfCoil implements Part {
    private final Circuit circuit;
    private final Coil coil;
    private final int on;

    OfCoil(Circuit circuit, String name, Coil coil) {
      this.circuit = circuit;
      this.coil = coil;
      on = circuit.ports.contact("coil." + name, "Contact of a relay held by the network");
    }

    @Override
    public void after() {
      coil.step(circuit.network, circuit.micros);
      show();
    }

    @Override
    public void show() {
      circuit.ports.set(on, coil.on());
    }

    @Override
    public boolean idle() {
      return coil.idle();
    }

    @Override
    public void save(DataOutput to) throws IOException {
      coil.save(to);
    }

    @Override
    public void restore(DataInput from) throws IOException {
      coil.restore(from);
    }
  }
}
