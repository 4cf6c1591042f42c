package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A relay or contactor whose coil hangs on a node: it pulls in and lets go at shares of its
 * voltage, after times of its own. [project choice; common alternating-current contactors let go
 * between 20 and 75 % of their voltage, IEC 60947-4-1, from memory, not re-read]
 */
final class Coil {
  final int node;
  private final int phase;
  private final double phaseVolts;
  private final double pullIn;
  private final double letGo;
  private final long pullMicros;
  private final long letGoMicros;
  private boolean on = true;
  private long changing;

  Coil(Settings s, int node, double lineVolts) {
    this.node = node;
    phase = s.text("phase").charAt(0) - 'a';
    phaseVolts = lineVolts / Math.sqrt(3);
    pullIn = s.number("pull_in");
    letGo = s.number("let_go");
    pullMicros = Math.round(s.number("pull_in_time") * 1e6);
    letGoMicros = Math.round(s.number("let_go_time") * 1e6);
  }

  void step(Network network, long micros) {
    double share = network.volts(node, phase) / phaseVolts;
    boolean turns = on ? share < letGo : share > pullIn;
    changing = turns ? changing + micros : 0;
    if (turns && changing >= (on ? letGoMicros : pullMicros)) {
      on = !on;
      changing = 0;
    }
  }

  boolean idle() {
    return changing == 0;
  }

  boolean on() {
    return on;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(on);
    to.writeLong(changing);
  }

  void restore(DataInput from) throws IOException {
    on = from.readBoolean();
    changing = from.readLong();
  }
}
