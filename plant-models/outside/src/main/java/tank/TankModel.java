package tank;

import bufferstop.spi.*;
import java.io.*;
import java.util.List;

/** A heated tank: dT/dt = (P - G (T - T0)) / C. */
public final class TankModel implements PlantModel {
  public String name() {
    return "tank";
  }

  public List<Parameter> schema() {
    return List.of(
        Parameter.number("capacity", "J/K", 1, 1e9, "Heat capacity"),
        Parameter.number("loss", "W/K", 0, 1e6, "Heat lost for each kelvin"),
        Parameter.number("power", "W", 0, 1e9, "Of its heater"));
  }

  public Plant open(Settings settings, Problems problems, RandomStream random) {
    double capacity = settings.number("capacity");
    double loss = settings.number("loss");
    double power = settings.number("power");
    return new Plant() {
      private double kelvin; // above the surroundings

      public List<Port> inputs() {
        return List.of(Port.contact("heater.on", "Heater on"));
      }

      public List<Port> outputs() {
        return List.of(Port.quantity("rise", "K", "Temperature above the surroundings"));
      }

      public void start(double[] out) {
        out[0] = kelvin;
      }

      public void step(long stepMicros, double[] in, double[] out) {
        kelvin += (in[0] * power - loss * kelvin) / capacity * stepMicros * 1e-6;
        out[0] = kelvin;
      }

      public void save(DataOutput to) throws IOException {
        to.writeDouble(kelvin);
      }

      public void restore(DataInput from) throws IOException {
        kelvin = from.readDouble();
      }
    };
  }
}
