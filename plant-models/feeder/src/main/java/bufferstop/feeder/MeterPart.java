package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A meter with its ports. */
final class MeterPart implements Part {
  private final Circuit circuit;
  private final Meter meter;
  private final int[] volts = new int[3];
  private final int[] amperes = new int[3];
  private final int[] lineVolts = new int[3];
  private final int meanVolts;
  private final int meanLineVolts;
  private final int totalAmperes;
  private final int powerFailed;
  private final int watts;
  private final int fundamentalWatts;
  private final int vars;
  private final int apparent;
  private final int nonFundamental;
  private final int factor;
  private final int displacement;
  private final int thdVolts;
  private final int thdAmperes;
  private final int hertz;
  private final int imported;
  private final int exported;
  private final int apparentImported;
  private final int apparentExported;
  private final int[] reactive = new int[4];
  private final int block;
  private final int sliding;
  private final int thermal;
  private final int mostBlock;
  private final int mostSliding;
  private final int mostAt;

  MeterPart(Circuit circuit, String name, Meter meter) {
    this.circuit = circuit;
    this.meter = meter;
    Ports ports = circuit.ports;
    String head = "meter." + name;
    for (int p = 0; p < 3; p++) {
      String phase = "abc".substring(p, p + 1);
      volts[p] = ports.quantity(head + ".volts_" + phase, "V", "rms over 10 or 12 cycles");
      amperes[p] = ports.quantity(head + ".amperes_" + phase, "A", "rms over 10 or 12 cycles");
    }
    for (int p = 0; p < 3; p++) {
      String pair = "abbcca".substring(2 * p, 2 * p + 2);
      lineVolts[p] = ports.quantity(head + ".volts_" + pair, "V", "Likewise between two phases");
    }
    meanVolts = ports.quantity(head + ".volts", "V", "Mean of its phases");
    meanLineVolts = ports.quantity(head + ".volts_line", "V", "Mean between its phases");
    totalAmperes = ports.quantity(head + ".amperes", "A", "Sum of its phases");
    powerFailed = ports.contact(head + ".power_failed", "It has no voltage");
    watts = ports.quantity(head + ".watts", "W", "Active power, negative when exported");
    fundamentalWatts =
        ports.quantity(head + ".fundamental_watts", "W", "Active power, fundamental");
    vars = ports.quantity(head + ".vars", "var", "Reactive power, fundamental");
    apparent = ports.quantity(head + ".apparent", "VA", "Apparent power");
    nonFundamental =
        ports.quantity(head + ".non_fundamental", "VA", "Non-fundamental apparent power");
    factor = ports.quantity(head + ".power_factor", "", "True power factor, P over S");
    displacement = ports.quantity(head + ".displacement_factor", "", "Of the fundamental alone");
    thdVolts = ports.quantity(head + ".thd_volts", "", "Total harmonic distortion of the voltage");
    thdAmperes = ports.quantity(head + ".thd_amperes", "", "Likewise of the current");
    hertz = ports.quantity(head + ".hertz", "Hz", "Frequency");
    imported = ports.quantity(head + ".imported", "Wh", "Active energy imported");
    exported = ports.quantity(head + ".exported", "Wh", "Active energy exported");
    apparentImported =
        ports.quantity(head + ".apparent_imported", "VAh", "Apparent energy while importing");
    apparentExported =
        ports.quantity(head + ".apparent_exported", "VAh", "Apparent energy while exporting");
    for (int q = 0; q < 4; q++) {
      reactive[q] =
          ports.quantity(head + ".reactive_" + (q + 1), "varh", "Reactive energy, quadrant");
    }
    block = ports.quantity(head + ".demand", "W", "Mean power of the last block of the clock");
    sliding = ports.quantity(head + ".demand_sliding", "W", "Likewise, sliding by its parts");
    thermal = ports.quantity(head + ".demand_thermal", "W", "Exponential demand");
    mostBlock = ports.quantity(head + ".demand_most", "W", "Greatest block demand so far");
    mostSliding = ports.quantity(head + ".demand_sliding_most", "W", "Greatest sliding demand");
    mostAt = ports.quantity(head + ".demand_most_at", "s", "When its block ended, from the start");
  }

  /** A step in which nothing has changed. */
  void tick() {
    if (meter.tick(circuit.micros)) {
      show();
    }
  }

  @Override
  public void after() {
    if (circuit.renewed) {
      meter.look(circuit.network);
    }
    tick();
  }

  @Override
  public void show() {
    Ports ports = circuit.ports;
    for (int p = 0; p < 3; p++) {
      ports.set(volts[p], meter.volts(p));
      ports.set(amperes[p], meter.amperes(p));
      ports.set(lineVolts[p], meter.lineVolts(p));
    }
    ports.set(meanVolts, meter.meanVolts());
    ports.set(meanLineVolts, meter.meanLineVolts());
    ports.set(totalAmperes, meter.totalAmperes());
    ports.set(powerFailed, meter.powerFailed());
    ports.set(watts, meter.watts());
    ports.set(fundamentalWatts, meter.fundamentalWatts());
    ports.set(vars, meter.vars());
    ports.set(apparent, meter.apparent());
    ports.set(nonFundamental, meter.nonFundamental());
    ports.set(factor, meter.factor());
    ports.set(displacement, meter.displacement());
    ports.set(thdVolts, meter.thdVolts());
    ports.set(thdAmperes, meter.thdAmperes());
    ports.set(
        hertz, meter.volts(0) + meter.volts(1) + meter.volts(2) > 1 ? circuit.source.hertz() : 0);
    ports.set(imported, meter.registers.imported());
    ports.set(exported, meter.registers.exported());
    ports.set(apparentImported, meter.registers.apparentImported());
    ports.set(apparentExported, meter.registers.apparentExported());
    for (int q = 0; q < 4; q++) {
      ports.set(reactive[q], meter.registers.reactive(q));
    }
    ports.set(block, meter.demand.block());
    ports.set(sliding, meter.demand.sliding());
    ports.set(thermal, meter.demand.thermal());
    ports.set(mostBlock, meter.demand.mostBlock());
    ports.set(mostSliding, meter.demand.mostSliding());
    ports.set(mostAt, meter.demand.mostBlockSeconds());
  }

  @Override
  public boolean idle() {
    return true;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    meter.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    meter.restore(from);
  }
}
