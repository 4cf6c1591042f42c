package bufferstop.railway;

import bufferstop.railway.LineData.ScaleData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A weighing place: carries of each vehicle the share of its length that stands on it, reads that
 * through a low-pass, and has a contact with hysteresis (reference 7.2).
 */
final class Scale implements Stateful {
  final ScaleData data;
  final Chain chain;
  private final Stock stock;
  private final Occupancy occupancy;
  private double kg;
  private boolean heavy;
  private double seconds;
  private double stays;

  Scale(ScaleData data, Stock stock, Occupancy occupancy, long seed) {
    this.data = data;
    this.stock = stock;
    this.occupancy = occupancy;
    chain = new Chain(data.chain(), seed);
  }

  void start() {
    kg = onIt();
    heavy = kg > data.onKg();
    chain.start(heavy);
  }

  void step(long stepMicros, long nowMicros) {
    double step = stepMicros * 1e-6;
    if (step != seconds) {
      seconds = step;
      stays = data.timeConstant() > 0 ? StrictMath.exp(-step / data.timeConstant()) : 0;
    }
    double now = onIt();
    kg = now + (kg - now) * stays;
    heavy = heavy ? kg >= data.offKg() : kg > data.onKg();
    chain.step(heavy, stepMicros, nowMicros);
  }

  private double onIt() {
    int segment = data.from().segment();
    double from = data.from().offsetMetres() + chain.beside();
    double to = data.to().offsetMetres() + chain.beside();
    double sum = 0;
    int n = occupancy.firstBeyond(segment, from);
    while (n < occupancy.count(segment) && occupancy.low(segment, n) < to) {
      int i = occupancy.who(segment, n);
      double over =
          Math.min(occupancy.high(segment, n), to) - Math.max(occupancy.low(segment, n), from);
      sum += stock.kg(stock.at[i]) * over / stock.data.get(i).lengthMetres();
      n++;
    }
    return sum;
  }

  double kg() {
    return kg;
  }

  boolean on() {
    return chain.given();
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(kg);
    to.writeBoolean(heavy);
    chain.save(to);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    kg = from.readDouble();
    heavy = from.readBoolean();
    chain.restore(from);
  }
}
