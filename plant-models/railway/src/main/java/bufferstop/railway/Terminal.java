package bufferstop.railway;

import bufferstop.railway.LineData.TerminalData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A digital input with the thresholds of IEC 61131-2 [second-hand] behind an RC filter. Between the
 * thresholds it stays what it was (project choice; the standard leaves that open).
 */
final class Terminal implements Stateful {
  private final TerminalData data;
  private double volts;
  private boolean on;
  private double seconds;
  private double stays;

  Terminal(TerminalData data) {
    this.data = data;
  }

  void start(boolean closed) {
    volts = closed ? data.volts() : 0;
    on = closed && volts >= data.onAboveVolts();
  }

  boolean step(boolean closed, long stepMicros) {
    double step = stepMicros * 1e-6;
    if (step != seconds) {
      seconds = step;
      stays = data.tau() > 0 ? StrictMath.exp(-step / data.tau()) : 0;
    }
    double target = closed ? data.volts() : 0;
    volts = target + (volts - target) * stays;
    on = on ? volts > data.offBelowVolts() : volts >= data.onAboveVolts();
    return on;
  }

  /** Delay of a rise from nothing, and of a fall from the full voltage, s. */
  double onSeconds() {
    return data.tau() * StrictMath.log(data.volts() / (data.volts() - data.onAboveVolts()));
  }

  double offSeconds() {
    return data.tau() * StrictMath.log(data.volts() / data.offBelowVolts());
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(volts);
    to.writeBoolean(on);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    volts = from.readDouble();
    on = from.readBoolean();
  }
}
