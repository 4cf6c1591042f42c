package bufferstop.modbus;

import java.util.Arrays;
import java.util.List;

/** One of the four tables of a map: from address to slot, and which ranges have no hole. */
final class AddressTable {
  private static final int HOLE = -1;

  private final Slot[] slots; // by rising address
  private final int[] cells; // of the slots, so that a range is one copy from a snapshot
  private final int[] indexes; // of slots, by address
  private final int[] runEnds; // by address: first address after it that is a hole

  AddressTable(List<Slot> byAddress) {
    slots = byAddress.toArray(Slot[]::new);
    cells = byAddress.stream().mapToInt(Slot::cell).toArray();
    int length = slots.length == 0 ? 0 : end(slots[slots.length - 1]);
    indexes = new int[length];
    Arrays.fill(indexes, HOLE);
    for (int i = 0; i < slots.length; i++) {
      Arrays.fill(indexes, slots[i].address(), end(slots[i]), i);
    }
    runEnds = new int[length];
    int end = length;
    for (int at = length - 1; at >= 0; at--) {
      if (indexes[at] == HOLE) {
        end = at;
      }
      runEnds[at] = end;
    }
  }

  private static int end(Slot slot) {
    return slot.address() + slot.size();
  }

  /** Whether every address of a range is mapped. */
  boolean covers(int address, int quantity) {
    return address < runEnds.length && runEnds[address] >= address + quantity;
  }

  /** Whether a range is made of whole writable values. */
  boolean takes(int address, int quantity) {
    if (!covers(address, quantity)) {
      return false;
    }
    int at = address;
    while (at < address + quantity) {
      Slot slot = slotAt(at);
      if (slot.address() != at || slot.writable() == null) {
        return false;
      }
      at = end(slot);
    }
    return at == address + quantity;
  }

  /** The slot of a mapped address. */
  Slot slotAt(int address) {
    return slots[indexes[address]];
  }

  /** Index of a mapped address's slot, counting slots by address. */
  int indexAt(int address) {
    return indexes[address];
  }

  Slot slot(int index) {
    return slots[index];
  }

  /** The cells of all slots by address; not to be written. */
  int[] cells() {
    return cells;
  }
}
