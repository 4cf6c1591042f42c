package bufferstop.modbus;

import bufferstop.model.Serving.Sections;
import java.util.Arrays;
import java.util.List;

/** One of the four tables of a map: from address to slot, and which ranges have no hole. */
final class AddressTable {
  private static final int HOLE = -1;

  private final Slot[] slots; // by rising address
  private final int[] cells; // by address: see cells()
  private final int[] rowEnds; // by address: see rowEnds()
  private final int[] indexes; // of slots, by address
  private final int[] runEnds; // by address: first address after it that is a hole

  AddressTable(List<Slot> byAddress) {
    slots = byAddress.toArray(Slot[]::new);
    int length = slots.length == 0 ? 0 : slots[slots.length - 1].end();
    indexes = new int[length];
    cells = new int[length];
    Arrays.fill(indexes, HOLE);
    Arrays.fill(cells, Slot.NO_CELL);
    for (int i = 0; i < slots.length; i++) {
      Arrays.fill(indexes, slots[i].address(), slots[i].end(), i);
      cells[slots[i].address()] = slots[i].plainCell();
    }
    rowEnds = new int[length];
    for (int at = length - 1; at >= 0; at--) {
      boolean goesOn = at + 1 < length && cells[at] >= 0 && cells[at + 1] == cells[at] + 1;
      rowEnds[at] = goesOn ? rowEnds[at + 1] : at + 1;
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
    for (int i = indexes[address]; i <= indexes[address + quantity - 1]; i++) {
      Refusal.unless(slots[i].isOnlyIn(allowed), Refusal.ILLEGAL_FUNCTION);
    }
  }

  /** The slot of a mapped address. */
  Slot slotAt(int address) {
    return slots[indexes[address]];
  }

  /**
   * By address the cell whose value is just what stands there: a bit, or a number in one register.
   * Negative where a slot has to work out its words; not to be written.
   */
  int[] cells() {
    return cells;
  }

  /**
   * By address the first one behind it whose cell is not the next one, as those of points that were
   * declared together are; not to be written.
   */
  int[] rowEnds() {
    return rowEnds;
  }
}
