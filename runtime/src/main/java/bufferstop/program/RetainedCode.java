package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Point;
import bufferstop.model.Retained;
import bufferstop.model.Retained.Cell;
import bufferstop.model.Symbol;
import bufferstop.model.ValueType;
import bufferstop.st.BlockType;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32C;

/** Which cells belong to what a controller retains. */
final class RetainedCode {
  private RetainedCode() {}

  /** A point, all cells of a STRING. */
  static Retained point(Point point, Layout layout) {
    Symbol first = layout.controller().find(point.name());
    List<Cell> cells = new ArrayList<>();
    for (int i = 0; i < first.cells(); i++) {
      cells.add(new Cell(first.index() + i, false));
    }
    String type = words(new ValueType(point.type(), point.enumeration(), point.length(), null));
    return new Retained(point.name(), type, cells, point.least() == null ? null : point);
  }

  /** An instance of a block: inputs, outputs, memory. */
  static Retained block(String name, BlockType type, Symbol first) {
    List<Cell> cells = new ArrayList<>();
    CRC32C form = new CRC32C();
    int index = first.index();
    for (List<BlockType.Pin> pins : List.of(type.inputs(), type.outputs(), type.memory())) {
      for (BlockType.Pin pin : pins) {
        for (int i = 0; i < pin.cells(); i++) {
          cells.add(new Cell(index++, pin.moment()));
        }
        add(form, pin.name(), pin.of());
      }
    }
    return new Retained(name, type.name() + ":" + Long.toHexString(form.getValue()), cells, null);
  }

  /**
   * Cells that stand by themselves.
   *
   * @param kind one word for what they belong to
   * @param moments those among them that hold a time by the controller's clock
   */
  static Retained of(String name, String kind, List<Symbol> symbols, List<Symbol> moments) {
    List<Cell> cells = new ArrayList<>();
    CRC32C form = new CRC32C();
    for (Symbol symbol : symbols) {
      cells.add(new Cell(symbol.index(), moments.contains(symbol)));
      add(form, symbol.name(), ValueType.of(symbol.type()));
    }
    return new Retained(name, kind + ":" + Long.toHexString(form.getValue()), cells, null);
  }

  private static void add(CRC32C form, String name, ValueType type) {
    form.update((name + " " + words(type) + "\n").getBytes(StandardCharsets.UTF_8));
  }

  /** A type with the values of an enumeration: a number alone does not say which is meant. */
  private static String words(ValueType type) {
    return type.enumeration() == null
        ? type.words()
        : type.words() + "(" + String.join(",", type.enumeration().values()) + ")";
  }
}
