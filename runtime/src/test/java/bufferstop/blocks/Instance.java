package bufferstop.blocks;

import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.BlockType.Pin;
import bufferstop.st.Body;
import java.util.List;
import java.util.stream.Stream;

/** One instance of a block, called by hand at times of the test's choice. */
final class Instance {
  private static final int FIRST = SystemCells.COUNT + 5; // not where a mistaken offset would land
  private static final long MILLI = 1000;

  private final BlockType type;
  private final Body.Step step;
  private final List<Pin> pins;
  private final long[] cells;

  Instance(BlockType type, Body.Step step) {
    this.type = type;
    this.step = step;
    this.pins =
        Stream.of(type.inputs(), type.outputs(), type.memory()).flatMap(List::stream).toList();
    this.cells = new long[FIRST + type.size() + FIRST];
    for (int i = 0; i < pins.size(); i++) {
      cells[FIRST + i] = pins.get(i).initial().get(0);
    }
  }

  private int cell(String pin) {
    for (int i = 0; i < pins.size(); i++) {
      if (pins.get(i).name().equals(pin)) {
        return FIRST + i;
      }
    }
    throw new IllegalArgumentException(type.name() + " has no " + pin);
  }

  private int cell(String pin, Type of) {
    int cell = cell(pin);
    Type is = pins.get(cell - FIRST).type();
    if (is != of) {
      throw new IllegalArgumentException(pin + " is " + is);
    }
    return cell;
  }

  Instance set(String pin, double value) {
    cells[cell(pin, Type.LREAL)] = Double.doubleToRawLongBits(value);
    return this;
  }

  Instance set(String pin, boolean value) {
    cells[cell(pin, Type.BOOL)] = value ? 1 : 0;
    return this;
  }

  Instance millis(String pin, long millis) {
    cells[cell(pin, Type.TIME)] = millis * MILLI;
    return this;
  }

  /** Calls it at a time. */
  Instance at(double seconds) {
    cells[SystemCells.TIME] = Math.round(seconds * 1e6);
    step.run(cells, FIRST);
    return this;
  }

  double real(String pin) {
    return Double.longBitsToDouble(cells[cell(pin, Type.LREAL)]);
  }

  boolean on(String pin) {
    return cells[cell(pin, Type.BOOL)] != 0;
  }

  /** Of an integer. */
  long count(String pin) {
    return cells[cell(pin)];
  }

  long millisOf(String pin) {
    return cells[cell(pin, Type.TIME)] / MILLI;
  }

  /** The raw cell, of memory too. */
  long bits(Pin pin) {
    return cells[cell(pin.name())];
  }

  void setBits(Pin pin, long bits) {
    cells[cell(pin.name())] = bits;
  }

  /** Names of the BOOL outputs that are TRUE, in the order of the pins, {@code -} for none. */
  String told() {
    List<String> names =
        type.outputs().stream()
            .filter(p -> p.type() == Type.BOOL && cells[cell(p.name())] != 0)
            .map(Pin::name)
            .toList();
    return names.isEmpty() ? "-" : String.join(" ", names);
  }
}
