package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** What is left of the driven wheels' adhesion. */
final class Adhesion implements Stateful {
  private double share = 1;

  double share() {
    return share;
  }

  /** Fault: only this share of it is there. */
  void reduce(double share) {
    this.share = share;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeDouble(share);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    share = from.readDouble();
  }
}
