package bufferstop.railway;

import bufferstop.railway.LineData.DischargeData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A place where wagons are tipped. Every wagon whose middle stands within it empties at a rate. */
final class Discharge implements Stateful {
  private final DischargeData data;
  private final Stock stock;
  private final Occupancy occupancy;
  private double receivedKg;

  Discharge(DischargeData data, Stock stock, Occupancy occupancy) {
    this.data = data;
    this.stock = stock;
    this.occupancy = occupancy;
  }

  void step(double seconds, boolean tip) {
    int segment = data.from().segment();
    double from = data.from().offsetMetres();
    double to = data.to().offsetMetres();
    int n = tip ? occupancy.firstBeyond(segment, from) : occupancy.count(segment);
    while (n < occupancy.count(segment) && occupancy.low(segment, n) <= to) {
      int i = occupancy.who(segment, n++);
      stock.placement.locate(i, 0);
      double middle = stock.placement.foundOffset();
      if (stock.placement.foundSegment() == segment && from <= middle && middle <= to) {
        double kg = Math.min(stock.loadKg[i], data.kgPerSecond() * seconds);
        stock.loadKg[i] -= kg;
        receivedKg += kg;
      }
    }
  }

  double receivedKg() {
    return receivedKg;
  }

  DischargeData data() {
    return data;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(receivedKg);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    receivedKg = from.readDouble();
  }
}
