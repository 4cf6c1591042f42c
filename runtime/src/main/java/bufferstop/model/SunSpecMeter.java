package bufferstop.model;

import java.util.Map;
import java.util.TreeMap;

/**
 * A meter that a Modbus unit shows by the SunSpec Alliance's information models: the common model
 * and the meter models in whole numbers with scale points and in floating point.
 *
 * @param port head of the names of its values, {@code works.meter.cottages}
 * @param threePhase four wires (models 203 and 213), else a single phase (201 and 211)
 * @param manufacturer at most 32 characters, like model and serial
 * @param options at most 16 characters, like version; may be empty
 * @param base PDU address of the marker: 0, 40000 or 50000
 * @param scales exponents of its scale points, all of them, by their quantity's name
 */
public record SunSpecMeter(
    Name port,
    boolean threePhase,
    String manufacturer,
    String model,
    String options,
    String version,
    String serial,
    int base,
    Map<Quantity, Integer> scales) {

  /** What one scale point holds for. */
  public enum Quantity {
    A(-2),
    V(-1),
    HZ(-2),
    W(0),
    VA(0),
    VAR(0),
    PF(-2),
    TOTWH(0),
    TOTVAH(0),
    TOTVARH(0);

    private final int usual;

    Quantity(int usual) {
      this.usual = usual;
    }
  }

  /**
   * The exponents that suit a meter of a few hundred amperes at mains voltage: 0.01 A, 0.1 V, 0.01
   * Hz, 1 W, 0.01 %, 1 Wh.
   */
  public static Map<Quantity, Integer> usualScales() {
    Map<Quantity, Integer> scales = new TreeMap<>();
    for (Quantity quantity : Quantity.values()) {
      scales.put(quantity, quantity.usual);
    }
    return scales;
  }
}
