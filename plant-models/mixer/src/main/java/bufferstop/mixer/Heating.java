package bufferstop.mixer;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** The jacket, the heat in vessel and contents, and the temperature transmitter. */
final class Heating {
  private final double power;
  private final double lagSeconds;
  private final double loss;
  private final double body;
  private final double specific;
  private final double ambient;
  private final double low;
  private final double high;
  private double temperature; // °C
  private double jacketWatts;
  private boolean dead;

  Heating(Settings with) {
    power = with.number("power");
    lagSeconds = with.number("lag");
    loss = with.number("loss");
    body = with.number("body");
    specific = with.number("specific");
    ambient = with.number("ambient");
    low = with.number("low");
    high = with.number("high");
    temperature = ambient;
  }

  /** Fault: no heat whatever is asked. */
  void kill(boolean dead) {
    this.dead = dead;
  }

  /** Something as warm as the surroundings comes to what is there. */
  void mix(double massKg, double addedKg) {
    double capacity = body + massKg * specific;
    double added = addedKg * specific;
    temperature = (capacity * temperature + added * ambient) / (capacity + added);
  }

  /**
   * Warms.
   *
   * @param share of full heat; what is beyond 0 or 1 counts as the limit
   */
  void step(double seconds, double massKg, double share) {
    double asked = dead ? 0 : Math.max(0, Math.min(1, share)) * power;
    jacketWatts += Lag.share(seconds, lagSeconds) * (asked - jacketWatts);
    double capacity = body + massKg * specific;
    if (loss > 0) {
      double goal = ambient + jacketWatts / loss;
      temperature += Lag.share(seconds, capacity / loss) * (goal - temperature);
    } else {
      temperature += jacketWatts * seconds / capacity;
    }
  }

  double temperature() {
    return temperature;
  }

  double amperes() {
    return Transmitter.amperes((temperature - low) / (high - low));
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(temperature);
    to.writeDouble(jacketWatts);
    to.writeBoolean(dead);
  }

  void restore(DataInput from) throws IOException {
    temperature = from.readDouble();
    jacketWatts = from.readDouble();
    dead = from.readBoolean();
  }
}
