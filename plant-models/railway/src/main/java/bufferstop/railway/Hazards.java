package bufferstop.railway;

import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Counts what must not happen to trains, and derails them. */
final class Hazards implements Stateful {
  private final Stock stock;
  private final Happenings happenings;
  private int collisions;
  private double collisionSpeed;
  private int derailments;
  private int struck;
  private double struckSpeed;
  private int passedAtDanger;

  Hazards(Stock stock, Happenings happenings) {
    this.stock = stock;
    this.happenings = happenings;
  }

  /** Two vehicles met faster than they couple, or where they had no business to meet. */
  void collided(int one, int other, double speed) {
    collisions++;
    collisionSpeed = Math.max(collisionSpeed, speed);
    happenings.happened(Happening.COLLIDED, speed);
  }

  /** Two vehicles met sideways, where two tracks join. */
  void sideswiped(int one, int other) {
    double speed = Math.max(Math.abs(stock.speed(one)), Math.abs(stock.speed(other)));
    collided(one, other, speed);
    derail(one);
    derail(other);
  }

  void derail(int vehicle) {
    if (!stock.derailed[vehicle]) {
      stock.derailed[vehicle] = true;
      derailments++;
      happenings.happened(Happening.DERAILED, Math.abs(stock.speed(vehicle)));
    }
  }

  void struck(double speed) {
    struck++;
    struckSpeed = Math.max(struckSpeed, speed);
    happenings.happened(Happening.OBSTACLE_STRUCK, speed);
  }

  void passedAtDanger(double speed) {
    passedAtDanger++;
    happenings.happened(Happening.PASSED_AT_DANGER, speed);
  }

  int collisions() {
    return collisions;
  }

  double collisionSpeed() {
    return collisionSpeed;
  }

  int derailments() {
    return derailments;
  }

  int struck() {
    return struck;
  }

  double struckSpeed() {
    return struckSpeed;
  }

  int passedAtDanger() {
    return passedAtDanger;
  }

  @Override
  public void save(DataOutput to) throws IOException {
    to.writeInt(collisions);
    to.writeDouble(collisionSpeed);
    to.writeInt(derailments);
    to.writeInt(struck);
    to.writeDouble(struckSpeed);
    to.writeInt(passedAtDanger);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    collisions = from.readInt();
    collisionSpeed = from.readDouble();
    derailments = from.readInt();
    struck = from.readInt();
    struckSpeed = from.readDouble();
    passedAtDanger = from.readInt();
  }
}
