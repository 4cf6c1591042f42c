package bufferstop.model;

import java.util.List;

/**
 * One Modbus face of a project.
 *
 * @param name hmi, field or plc
 * @param host listen or connect address, never null
 * @param port 0 to 65535; 0 asks the system for a free one
 * @param unit unit identifier, 0 to 255
 * @param entries in file order, without overlaps
 */
public record ModbusMap(
    String name, String host, int port, int unit, List<Entry> entries, Position position) {

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

  /**
   * Order of the registers in a value wider than one; bytes in a register are always high first.
   */
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

  /**
   * One point in one table.
   *
   * @param point any name a scenario may observe
   * @param address protocol address of its first bit or register, from 0
   * @param type of the point, so that its width is known
   * @param order of words
   */
  public record Entry(
      Name point, Table table, int address, Type type, WordOrder order, Position position) {

    /** Addresses it takes: 1 for a bit; registers by type otherwise. */
    public int size() {
      return table.isBit() ? 1 : registers(type);
    }
  }

  /**
   * Registers a value takes: BOOL (0 or 1) and types up to 16 bits one, 32-bit types two, 64-bit
   * types four, TIME two as a DINT of milliseconds.
   */
  public static int registers(Type type) {
    return type == Type.TIME ? 2 : Math.max(1, type.bits() / 16);
  }
}
