package bufferstop.modbus;

import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Scope;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** A row of addresses that a client writes with one question, whenever they have changed. */
final class WriteRow {
  private static final int SINGLE_ON = 0xFF00;

  private final AddressRow row;
  private final List<Slot> slots = new ArrayList<>();
  private final int[] words; // by address within the row
  private final int[] acknowledged;
  private boolean known; // whether the device has what was acknowledged
  private long acknowledgedNanos;

  /**
   * A row.
   *
   * @param scope gives each entry its cell
   */
  WriteRow(AddressRow row, Scope scope) {
    this.row = row;
    Map<Integer, List<BitsSlot.Part>> parts = new TreeMap<>();
    for (Entry entry : row.entries()) {
      int cell = scope.find(entry.point().text()).index();
      if (entry.bit() == ModbusMap.WHOLE) {
        slots.add(
            new ValueSlot(
                entry.address(), entry.size(), cell, entry.type(), entry.coding(), "", null));
      } else {
        parts
            .computeIfAbsent(entry.address(), at -> new ArrayList<>())
            .add(new BitsSlot.Part(entry.bit(), cell, "", null));
      }
    }
    parts.forEach((at, bits) -> slots.add(new BitsSlot(at, bits.toArray(BitsSlot.Part[]::new))));
    words = new int[row.quantity()];
    acknowledged = new int[row.quantity()];
  }

  /** Takes the values of an image. */
  void see(long[] image) {
    for (Slot slot : slots) {
      for (int i = 0; i < slot.size(); i++) {
        words[slot.address() - row.address() + i] = slot.word(image, i);
      }
    }
  }

  /** Whether the device may have other values than these, or was not told for that long. */
  boolean isDue(long nowNanos, long refreshNanos) {
    return !known
        || nowNanos - acknowledgedNanos >= refreshNanos
        || !Arrays.equals(words, acknowledged);
  }

  /** The connection was lost: what the device has is not known. */
  void forget() {
    known = false;
  }

  /** The question; gives its length. */
  int question(byte[] pdu) {
    boolean bits = row.table().isBit();
    Words.put(pdu, 1, row.address());
    if (row.quantity() == 1) {
      pdu[0] = (byte) (bits ? FunctionCode.WRITE_SINGLE_COIL : FunctionCode.WRITE_SINGLE_REGISTER);
      Words.put(pdu, 3, bits ? words[0] * SINGLE_ON : words[0]);
      return 5;
    }
    pdu[0] =
        (byte) (bits ? FunctionCode.WRITE_MULTIPLE_COILS : FunctionCode.WRITE_MULTIPLE_REGISTERS);
    Words.put(pdu, 3, row.quantity());
    int count = bits ? (row.quantity() + 7) / 8 : 2 * row.quantity();
    pdu[5] = (byte) count;
    Arrays.fill(pdu, 6, 6 + count, (byte) 0);
    for (int i = 0; i < words.length; i++) {
      if (bits) {
        pdu[6 + i / 8] |= (byte) (words[i] << i % 8);
      } else {
        Words.put(pdu, 6 + 2 * i, words[i]);
      }
    }
    return 6 + count;
  }

  /**
   * Takes the answer.
   *
   * @throws BrokenAnswer when it does not repeat what was asked
   */
  void take(ClientConnection from, int length, byte[] pdu, long nowNanos) throws BrokenAnswer {
    boolean echoes = length == 5;
    for (int i = 0; echoes && i < 5; i++) {
      echoes = from.answer(i) == (pdu[i] & 0xFF);
    }
    if (!echoes) {
      throw new BrokenAnswer("the answer to a write does not repeat it");
    }
    System.arraycopy(words, 0, acknowledged, 0, words.length);
    acknowledgedNanos = nowNanos;
    known = true;
  }

  /** What it writes, for messages. */
  String words() {
    int last = row.address() + row.quantity() - 1;
    return row.table().word() + " " + row.address() + " to " + last;
  }
}
