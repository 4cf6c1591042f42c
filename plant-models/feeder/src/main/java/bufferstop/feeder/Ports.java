package bufferstop.feeder;

import bufferstop.spi.Port;
import java.util.ArrayList;
import java.util.List;

/**
 * The plant's ports. Parts declare theirs while the plant is put together and keep the numbers;
 * outputs stand in one array, so that a part writes only what has changed.
 */
final class Ports {
  private final List<Port> inputs = new ArrayList<>();
  private final List<Port> outputs = new ArrayList<>();
  private double[] values = new double[64];

  /** A BOOL input that may stay unwired; returns its number. */
  int command(String name, String text, boolean unwired) {
    inputs.add(Port.contact(name, text).orElse(unwired ? 1 : 0));
    return inputs.size() - 1;
  }

  /** A numeric input that may stay unwired. */
  int amount(String name, String unit, String text, double unwired) {
    inputs.add(Port.quantity(name, unit, text).orElse(unwired));
    return inputs.size() - 1;
  }

  /** A BOOL output. */
  int contact(String name, String text) {
    outputs.add(Port.contact(name, text));
    return room();
  }

  /** A numeric output. */
  int quantity(String name, String unit, String text) {
    outputs.add(Port.quantity(name, unit, text));
    return room();
  }

  private int room() {
    if (outputs.size() > values.length) {
      values = java.util.Arrays.copyOf(values, 2 * values.length);
    }
    return outputs.size() - 1;
  }

  void set(int output, double value) {
    values[output] = value;
  }

  void set(int output, boolean value) {
    values[output] = value ? 1 : 0;
  }

  void write(double[] out) {
    System.arraycopy(values, 0, out, 0, outputs.size());
  }

  List<Port> inputs() {
    return List.copyOf(inputs);
  }

  List<Port> outputs() {
    return List.copyOf(outputs);
  }

  double[] values() {
    return values;
  }
}
