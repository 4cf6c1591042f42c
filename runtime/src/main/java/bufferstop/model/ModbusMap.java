package bufferstop.model;

import java.util.List;

/**
 * The map of one unit behind a Modbus face of a project.
 *
 * @param name hmi, field or plc; of a further unit behind the same listener {@code hmi.meter}
 * @param host listen or connect address; empty when only the secure listener is wanted
 * @param port 0 to 65535; 0 asks the system for a free one; -1 when there is no host
 * @param unit unit identifier, 0 to 255
 * @param entries in file order; without overlaps once they are linked
 * @param fixed addresses that hold what never changes, or nothing and read 0
 * @param meter what a unit shows of a meter by the rules of SunSpec, which give its entries; else
 *     null
 * @param serving how clients are treated; of a further unit that of its face
 * @param polling how the device is asked whose map this is, of the faces field and plc
 */
public record ModbusMap(
    String name,
    String host,
    int port,
    int unit,
    List<Entry> entries,
    List<Fixed> fixed,
    SunSpecMeter meter,
    Serving serving,
    Polling polling,
    Position position) {

  /** How the name of the map ends that shows faults and forces; no user can give such a name. */
  public static final String FAULT_PANEL = ".fault-panel";

  /** An address that {@link Entry} leaves to the rule for automatic ones. */
  public static final int AUTO = -1;

  /** The bit of an entry that is no bit in a register. */
  public static final int WHOLE = -1;

  /** A map without gaps that serves whoever comes. */
  public ModbusMap(
      String name, String host, int port, int unit, List<Entry> entries, Position position) {
    this(name, host, port, unit, entries, List.of(), null, Serving.STANDARD, position);
  }

  /** A map that is served. */
  public ModbusMap(
      String name,
      String host,
      int port,
      int unit,
      List<Entry> entries,
      List<Fixed> fixed,
      SunSpecMeter meter,
      Serving serving,
      Position position) {
    this(name, host, port, unit, entries, fixed, meter, serving, Polling.STANDARD, position);
  }

  /** The face it belongs to: its name up to the first dot. */
  public String face() {
    int dot = name.indexOf('.');
    return dot < 0 ? name : name.substring(0, dot);
  }

  /** The name of the device whose map it is: that of the unit, or of the face. */
  public String device() {
    return name.substring(name.indexOf('.') + 1);
  }

  /** Whether it shows the faults and forces of the rig, which are known when it is put together. */
  public boolean isFaultPanel() {
    return name.endsWith(FAULT_PANEL);
  }

  /** The same map with other entries. */
  public ModbusMap with(List<Entry> linked) {
    return with(linked, fixed);
  }

  /** The same map with other contents. */
  public ModbusMap with(List<Entry> linked, List<Fixed> fixed) {
    return new ModbusMap(name, host, port, unit, linked, fixed, meter, serving, polling, position);
  }

  /**
   * The four tables of the data model. Source: Modbus Application Protocol V1.1b3, 4.3 [re-read].
   */
  public enum Table {
    COIL("coil", true),
    DISCRETE_INPUT("discrete_input", true),
    HOLDING_REGISTER("holding_register", false),
    INPUT_REGISTER("input_register", false);

    private final String word;
    private final boolean bit;

    Table(String word, boolean bit) {
      this.word = word;
      this.bit = bit;
    }

    /** As files and the I/O list write it. */
    public String word() {
      return word;
    }

    /** One bit an address, or a 16-bit register. */
    public boolean isBit() {
      return bit;
    }

    /** Coils and holding registers. */
    public boolean isWritable() {
      return this == COIL || this == HOLDING_REGISTER;
    }
  }

  /** Order of the registers in a value wider than one. */
  public enum WordOrder {
    HIGH_WORD_FIRST("high_word_first"),
    LOW_WORD_FIRST("low_word_first");

    private final String word;

    WordOrder(String word) {
      this.word = word;
    }

    /** As files and the I/O list write it. */
    public String word() {
      return word;
    }
  }

  /** Order of the two bytes of each register. The standard's own is high byte first. */
  public enum ByteOrder {
    HIGH_BYTE_FIRST("high_byte_first"),
    LOW_BYTE_FIRST("low_byte_first");

    private final String word;

    ByteOrder(String word) {
      this.word = word;
    }

    /** As files and the I/O list write it. */
    public String word() {
      return word;
    }
  }

  /**
   * A quantity as a whole number: value = number x factor.
   *
   * @param as integer type of the number, or REAL, which decides its registers
   * @param factor what one step of the number is worth, in the value's unit (TIME: milliseconds);
   *     above 0
   * @param least least value shown and taken
   * @param greatest greatest value shown and taken
   * @param sentinel the number that stands for a value outside those bounds, in the encoding of
   *     {@code as}; null when such a value shows as the nearer bound
   */
  public record Scale(Type as, double factor, double least, double greatest, Long sentinel) {

    /** A REAL of the same value. */
    public static final Scale AS_REAL =
        new Scale(Type.REAL, 1, -Float.MAX_VALUE, Float.MAX_VALUE, null);
  }

  /**
   * How a value lies in its registers.
   *
   * @param scale null when the value stands there as it is
   */
  public record Coding(WordOrder words, ByteOrder bytes, Scale scale) {
    /** As the standard would have it, and as most do: all high first. */
    public static final Coding PLAIN =
        new Coding(WordOrder.HIGH_WORD_FIRST, ByteOrder.HIGH_BYTE_FIRST, null);
  }

  /**
   * One point in one table.
   *
   * @param point any name a scenario may observe
   * @param address protocol address of its first bit or register, from 0, or {@link #AUTO}
   * @param bit 0, the lowest, to 15 for a BOOL in one bit of a register, else {@link #WHOLE}
   * @param type of the point, so that its width is known
   * @param length most bytes of a STRING, else 0
   * @param section for permissions, may be empty
   */
  public record Entry(
      Name point,
      Table table,
      int address,
      int bit,
      Type type,
      int length,
      Coding coding,
      String section,
      Position position) {

    /** A whole value in no section, bytes high first. */
    public Entry(
        Name point, Table table, int address, Type type, WordOrder order, Position position) {
      this(
          point,
          table,
          address,
          WHOLE,
          type,
          0,
          new Coding(order, ByteOrder.HIGH_BYTE_FIRST, null),
          "",
          position);
    }

    /** The same entry for a value, which gives it its type. */
    public Entry of(Symbol symbol) {
      Name name = new Name(symbol.name(), point.position());
      return new Entry(
          name, table, address, bit, symbol.type(), symbol.length(), coding, section, position);
    }

    /** The same entry at an address. */
    public Entry at(int known) {
      return new Entry(point, table, known, bit, type, length, coding, section, position);
    }

    /** Addresses it takes: 1 for a bit; registers by type otherwise. */
    public int size() {
      if (table.isBit() || bit != WHOLE) {
        return 1;
      }
      if (type == Type.STRING) {
        return Math.max(1, (length + 1) / 2); // two bytes a register
      }
      return registers(coding.scale() == null ? type : coding.scale().as());
    }
  }

  /**
   * Addresses that hold what never changes and take no write.
   *
   * @param address first one
   * @param size how many
   * @param words what stands there from the first on, 16 bits each, zeros behind them
   */
  public record Fixed(Table table, int address, int size, List<Integer> words, Position position) {

    /** A gap: it reads 0. */
    public static Fixed gap(Table table, int address, int size, Position position) {
      return new Fixed(table, address, size, List.of(), position);
    }
  }

  /**
   * Registers a value takes: BOOL (0 or 1) and types up to 16 bits one, 32-bit types two, 64-bit
   * types four, TIME two as a DINT of milliseconds. Of a STRING it depends on its length.
   */
  public static int registers(Type type) {
    return type == Type.TIME ? 2 : Math.max(1, type.bits() / 16);
  }
}
