package bufferstop.modbus;

import bufferstop.model.Serving.Sections;
import java.util.Arrays;
import java.util.List;

/** One of the four tables of a map: from address to slot, and which ranges have no hole. */
final class AddressTable {
  private static final int HOLE = -1;

  private final boolean bits;
  private final Slot[] slots; // by rising address
  private final int[] cells; // of the slots, one after another, so that a range is one copy
  private final int[] starts; // by slot: its first among the cells; one more for the end
  private final int[] indexes; // of slots, by address
  private final int[] runEnds; // by address: first address after it that is a hole

  /**
   * @param bits whether an address is one bit, which has one cell
   */
  AddressTable(boolean bits, List<Slot> byAddress) {
    this.bits = bits;
    slots = byAddress.toArray(Slot[]::new);
    cells = byAddress.stream().flatMapToInt(s -> Arrays.stream(s.cells())).toArray();
    starts = new int[slots.length + 1];
    for (int i = 0; i < slots.length; i++) {
      starts[i + 1] = starts[i] + slots[i].cells().length;
    }
    int length = slots.length == 0 ? 0 : slots[slots.length - 1].end();
    indexes = new int[length];
    Arrays.fill(indexes, HOLE);
    for (int i = 0; i < slots.length; i++) {
      Arrays.fill(indexes, slots[i].address(), slots[i].end(), i);
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

  /** Whether every address of a range is mapped. */
  private boolean covers(int address, int quantity) {
    return address < runEnds.length && runEnds[address] >= address + quantity;
  }

  /** Refuses a range with a hole, then one of which a client may not see every part. */
  void checkRead(int address, int quantity, Sections allowed) throws Refusal {
    Refusal.unless(covers(address, quantity), Refusal.ILLEGAL_ADDRESS);
    checkAllowed(address, quantity, allowed);
  }

  /** Refuses what is not made of whole writable values, then what a client may not write. */
  void checkWrite(int address, int quantity, Sections allowed) throws Refusal {
    Refusal.unless(covers(address, quantity), Refusal.ILLEGAL_ADDRESS);
    int at = address;
    while (at < address + quantity) {
      Slot slot = slotAt(at);
      Refusal.unless(slot.address() == at && slot.isWritable(), Refusal.ILLEGAL_ADDRESS);
      at = slot.end();
    }
    Refusal.unless(at == address + quantity, Refusal.ILLEGAL_ADDRESS);
    checkAllowed(address, quantity, allowed);
  }

  /** The same for one register of which only the bits that are 0 in {@code and} change. */
  void checkMask(int address, int and, Sections allowed) throws Refusal {
    Refusal.unless(covers(address, 1), Refusal.ILLEGAL_ADDRESS);
    Refusal.unless(slotAt(address).isWritableUnder(and), Refusal.ILLEGAL_ADDRESS);
    checkAllowed(address, 1, allowed);
  }

  /** Source of the code: Modbus/TCP Security Protocol Specification v36, R-31 [re-read]. */
  private void checkAllowed(int address, int quantity, Sections allowed) throws Refusal {
    if (allowed.all()) {
      return;
    }
    for (int i = indexAt(address); i <= indexAt(address + quantity - 1); i++) {
      Refusal.unless(slots[i].isOnlyIn(allowed), Refusal.ILLEGAL_FUNCTION);
    }
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

  /** How many cells the slots before one have. */
  int cellsBefore(int index) {
    return starts[index];
  }

  /** Index among the cells of the first that a mapped address needs. */
  int firstCell(int address) {
    int index = indexes[address];
    return bits ? starts[index] + address - slots[index].address() : starts[index];
  }

  /** Index among the cells behind the last that a mapped address needs. */
  int cellsEnd(int address) {
    return bits ? firstCell(address) + 1 : starts[indexes[address] + 1];
  }

  /** The cells of all slots by address; not to be written. */
  int[] cells() {
    return cells;
  }
}
