package bufferstop.modbus;

import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Type;
import java.util.List;

/** A row of addresses that a client reads with one question. */
final class ReadRow {
  private static final byte[] OFF = {0, 0};
  private static final byte[] ON = {0, 1};

  /**
   * A value in it.
   *
   * @param index where it goes
   * @param offset its first address within the row
   */
  private record Item(int index, int offset, int bit, Type type, ValueSlot slot) {}

  private final AddressRow row;
  private final Item[] items;
  private final byte[] data;

  /**
   * A row.
   *
   * @param all what the client reads; the value of an entry goes where it stands here
   */
  ReadRow(AddressRow row, List<Entry> all) {
    this.row = row;
    items = row.entries().stream().map(e -> item(e, all.indexOf(e))).toArray(Item[]::new);
    data = new byte[2 * row.quantity()];
  }

  private Item item(Entry entry, int index) {
    ValueSlot slot =
        new ValueSlot(0, entry.size(), index, entry.type(), entry.coding(), entry.section(), null);
    return new Item(index, entry.address() - row.address(), entry.bit(), entry.type(), slot);
  }

  private int function() {
    return switch (row.table()) {
      case COIL -> FunctionCode.READ_COILS;
      case DISCRETE_INPUT -> FunctionCode.READ_DISCRETE_INPUTS;
      case HOLDING_REGISTER -> FunctionCode.READ_HOLDING_REGISTERS;
      case INPUT_REGISTER -> FunctionCode.READ_INPUT_REGISTERS;
    };
  }

  /** The question; gives its length. */
  int question(byte[] pdu) {
    pdu[0] = (byte) function();
    Words.put(pdu, 1, row.address());
    Words.put(pdu, 3, row.quantity());
    return 5;
  }

  /**
   * Takes the values of an answer.
   *
   * @param into takes them, all or none
   * @throws BrokenAnswer when it is not as long as it should be
   * @throws Refusal when a point cannot have its value
   */
  void take(ClientConnection from, int length, long[] into) throws BrokenAnswer, Refusal {
    boolean bits = row.table().isBit();
    int count = bits ? (row.quantity() + 7) / 8 : 2 * row.quantity();
    if (length != 2 + count || from.answer(1) != count) {
      throw new BrokenAnswer(
          "an answer of " + (length - 2) + " bytes to a question for " + count + " bytes");
    }
    from.copy(2, data, count);
    for (Item item : items) {
      value(item, bits); // all must be good before any is taken
    }
    for (Item item : items) {
      into[item.index()] = value(item, bits);
    }
  }

  private long value(Item item, boolean bits) throws Refusal {
    if (bits) {
      boolean on = (data[item.offset() / 8] >> item.offset() % 8 & 1) == 1;
      return item.slot().read(on ? ON : OFF, 0);
    }
    if (item.bit() != ModbusMap.WHOLE) {
      return PduCheck.word(data, 2 * item.offset()) >> item.bit() & 1;
    }
    long value = item.slot().read(data, 2 * item.offset());
    boolean finite = !item.type().isReal() || Double.isFinite(Double.longBitsToDouble(value));
    Refusal.unless(finite, Refusal.DEVICE_FAILURE);
    return value;
  }

  /** What it reads, for messages: {@code discrete_input 0 to 7}. */
  String words() {
    Table table = row.table();
    return table.word() + " " + row.address() + " to " + (row.address() + row.quantity() - 1);
  }

  List<Entry> entries() {
    return row.entries();
  }
}
