package bufferstop.railway;

import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleSupplier;

/** The plant's output ports and where each takes its value. */
final class Readings {
  private final List<Port> ports = new ArrayList<>();
  private final List<DoubleSupplier> building = new ArrayList<>();
  private DoubleSupplier[] values;

  void quantity(String name, String unit, String text, DoubleSupplier value) {
    ports.add(Port.quantity(name, unit, text));
    building.add(value);
  }

  void contact(String name, String text, BooleanSupplier value) {
    ports.add(Port.contact(name, text));
    building.add(() -> value.getAsBoolean() ? 1 : 0);
  }

  /** Ends building; returns the ports in order. */
  List<Port> seal() {
    values = building.toArray(DoubleSupplier[]::new);
    return List.copyOf(ports);
  }

  void write(double[] out) {
    for (int i = 0; i < values.length; i++) {
      out[i] = values[i].getAsDouble();
    }
  }
}
