package bufferstop.process;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A float switch with hysteresis. */
final class FloatSwitch {
  private final String name;
  private final double on;
  private final double off;
  private boolean closed;

  FloatSwitch(String name, double onMetres, double offMetres) {
    this.name = name;
    on = onMetres;
    off = offMetres;
  }

  String name() {
    return name;
  }

  void start(double level) {
    closed = level >= on;
  }

  void step(double level) {
    closed = closed ? level >= off : level >= on;
  }

  boolean closed() {
    return closed;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(closed);
  }

  void restore(DataInput from) throws IOException {
    closed = from.readBoolean();
  }
}
