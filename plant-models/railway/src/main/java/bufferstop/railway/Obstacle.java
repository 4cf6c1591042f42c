package bufferstop.railway;

import bufferstop.railway.LineData.ObstacleData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A person or a thing that may be on the track, and is struck by whatever comes over it. */
final class Obstacle implements Stateful {
  final ObstacleData data;
  private final Stock stock;
  private final Occupancy occupancy;
  private final Hazards hazards;
  private boolean present;
  private boolean struck;

  Obstacle(ObstacleData data, Stock stock, Occupancy occupancy, Hazards hazards) {
    this.data = data;
    this.stock = stock;
    this.occupancy = occupancy;
    this.hazards = hazards;
  }

  void step(boolean isThere) {
    struck &= isThere; // the next one is another one
    present = isThere;
  }

  /** After the trains have moved. */
  void watch() {
    if (!present || struck) {
      return;
    }
    int segment = data.place().segment();
    double low = data.place().offsetMetres() - data.lengthMetres() / 2;
    double high = data.place().offsetMetres() + data.lengthMetres() / 2;
    int n = occupancy.firstBeyond(segment, low);
    if (n < occupancy.count(segment) && occupancy.low(segment, n) < high + 1e-9) {
      double speed = Math.abs(stock.speed(occupancy.who(segment, n)));
      if (speed > 0) {
        struck = true;
        hazards.struck(speed);
      }
    }
  }

  boolean present() {
    return present;
  }

  boolean struck() {
    return struck;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeBoolean(present);
    to.writeBoolean(struck);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    present = from.readBoolean();
    struck = from.readBoolean();
  }
}
