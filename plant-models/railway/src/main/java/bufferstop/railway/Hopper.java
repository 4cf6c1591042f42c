package bufferstop.railway;

import bufferstop.railway.LineData.HopperData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A loading hopper. Its flow does not depend on the height of the fill (reference 7.1); the gate
 * moves evenly. What a wagon does not catch, or cannot hold, is spillage. The fall takes no time.
 */
final class Hopper implements Stateful {
  /** Beverloo's constants for round grains [from memory, not re-read]: reference F7.1. */
  private static final double FLOW_CONSTANT = 0.58;

  private static final double GRAIN_CONSTANT = 1.4;

  private final HopperData data;
  private final Stock stock;
  private final Occupancy occupancy;
  private final Happenings happenings;
  private double stockKg;
  private double spilledKg;
  private double opening;
  private boolean spilling;
  private boolean stuck;

  Hopper(HopperData data, Stock stock, Occupancy occupancy, Happenings happenings) {
    this.data = data;
    this.stock = stock;
    this.occupancy = occupancy;
    this.happenings = happenings;
    stockKg = data.stockKg();
  }

  /**
   * Mass flow of a coarse material through a round orifice, W = C rho sqrt(g) (D - k d)^2.5; form
   * as given by C. Mankoc et al., Granular Matter 9 (2007) [re-read], constants after Beverloo,
   * Leniger, van de Velde 1961 [from memory, not re-read].
   *
   * @param orifice diameter D in m
   * @param grain diameter d of the grains in m
   * @param bulkDensity rho in kg/m³
   * @return kg/s; 0 when the grains are too coarse for the orifice
   */
  static double orificeFlow(double orifice, double grain, double bulkDensity) {
    double free = Math.max(0, orifice - GRAIN_CONSTANT * grain);
    double area = free * free;
    return FLOW_CONSTANT * bulkDensity * Math.sqrt(Stock.GRAVITY) * area * Math.sqrt(free);
  }

  /** Fault: the gate stays where it is. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  void step(double seconds, boolean open) {
    double kg = Math.min(stockKg, data.kgPerSecond() * moveGate(seconds, open) * seconds);
    stockKg -= kg;
    double spilled = kg;
    if (kg > 0) {
      double half = data.spoutMetres() / 2;
      int segment = data.place().segment();
      double low = data.place().offsetMetres() - half;
      double high = data.place().offsetMetres() + half;
      int n = occupancy.firstBeyond(segment, low);
      while (n < occupancy.count(segment) && occupancy.low(segment, n) < high) {
        double over =
            Math.min(occupancy.high(segment, n), high) - Math.max(occupancy.low(segment, n), low);
        spilled -= fill(occupancy.who(segment, n), kg, over);
        n++;
      }
    }
    spill(Math.max(0, spilled), seconds);
  }

  /** Moves the gate; returns its mean opening, which counts the part of the step it moved in. */
  private double moveGate(double seconds, boolean open) {
    if (stuck) {
      return opening;
    }
    double before = opening;
    double travel = seconds / data.gateSeconds(); // infinite for a gate that moves at once
    opening = open ? Math.min(1, before + travel) : Math.max(0, before - travel);
    double moving = Math.abs(opening - before) / travel;
    return opening + moving * (before - opening) / 2;
  }

  /** Gives vehicle i what falls into it of {@code kg}; returns how much that was. */
  private double fill(int i, double kg, double over) {
    double room = stock.data.get(i).capacityKg() - stock.loadKg[i];
    double caught = Math.max(0, Math.min(kg * Math.min(1, over / data.spoutMetres()), room));
    stock.addLoad(i, caught);
    return caught;
  }

  private void spill(double kg, double seconds) {
    boolean spills = kg > 1e-12;
    if (spills && !spilling) {
      happenings.happened(Happening.SPILLAGE_BEGAN, kg / seconds);
    }
    spilling = spills;
    spilledKg += kg;
  }

  double stockKg() {
    return stockKg;
  }

  double spilledKg() {
    return spilledKg;
  }

  double opening() {
    return opening;
  }

  HopperData data() {
    return data;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(stockKg);
    to.writeDouble(spilledKg);
    to.writeDouble(opening);
    to.writeBoolean(spilling);
    to.writeBoolean(stuck);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    stockKg = from.readDouble();
    spilledKg = from.readDouble();
    opening = from.readDouble();
    spilling = from.readBoolean();
    stuck = from.readBoolean();
  }
}
