package bufferstop.st;

import bufferstop.model.Type;
import bufferstop.model.ValueType;
import java.util.List;

/**
 * A function block: what its instances hold and what a call does. The cells of an instance stand
 * one after the other: inputs, outputs, memory.
 *
 * @param name as declarations write it
 * @param inputs kept from call to call
 * @param outputs as left by the last call
 * @param memory what else it keeps
 * @param text one line for people
 */
public record BlockType(
    String name, List<Pin> inputs, List<Pin> outputs, List<Pin> memory, Body body, String text) {

  /**
   * A value of an instance.
   *
   * @param initial its cells at a cold start, from the first on; those that are missing are 0
   * @param required whether a call must give this input
   * @param text one line for people, with the unit
   * @param moment whether it keeps a time by the controller's clock, which a start sets back to 0
   */
  public record Pin(
      String name,
      ValueType of,
      List<Long> initial,
      boolean required,
      String text,
      boolean moment) {

    public Pin {
      initial = List.copyOf(initial);
    }

    /** One that keeps no moment. */
    public Pin(String name, ValueType of, List<Long> initial, boolean required, String text) {
      this(name, of, initial, required, text, false);
    }

    private Pin(String name, Type type, long initial, boolean required, String text) {
      this(name, ValueType.of(type), List.of(initial), required, text);
    }

    /** Memory of a moment. */
    public static Pin moment(String name) {
      return new Pin(name, ValueType.of(Type.TIME), List.of(0L), false, "", true);
    }

    /** The type of the value, or of an element. */
    public Type type() {
      return of.type();
    }

    /** Cells it takes. */
    public int cells() {
      return of.cells();
    }

    /** An input that every call gives. */
    public static Pin required(String name, Type type, String text) {
      return new Pin(name, type, 0, true, text);
    }

    /** An input that may be left out, an output, or memory; 0 or FALSE at a cold start. */
    public static Pin plain(String name, Type type, String text) {
      return new Pin(name, type, 0, false, text);
    }

    /** An input that may be left out and then has this value. */
    public static Pin real(String name, double initial, String text) {
      return new Pin(name, Type.LREAL, Double.doubleToLongBits(initial), false, text);
    }

    /** Likewise. */
    public static Pin truth(String name, boolean initial, String text) {
      return new Pin(name, Type.BOOL, initial ? 1 : 0, false, text);
    }

    /** Likewise. */
    public static Pin time(String name, long initialMicros, String text) {
      return new Pin(name, Type.TIME, initialMicros, false, text);
    }
  }

  /** How many cells an instance has. */
  public int size() {
    return cells(inputs) + cells(outputs) + cells(memory);
  }

  /** How many cells some pins take. */
  public static int cells(List<Pin> pins) {
    return pins.stream().mapToInt(Pin::cells).sum();
  }
}
