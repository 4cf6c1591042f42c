package bufferstop.image;

import bufferstop.model.Definitions;
import bufferstop.model.Enumeration;
import bufferstop.model.Position;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Which cell holds which named value. Filled while a project is put together, before any scan. Two
 * scopes look at it: the controller's own, and the field's, which sees everything else too. An
 * output has two cells: what the program says, seen by the controller, and what is given to the
 * field, seen by everyone else; they differ while a force or a safe value is on.
 */
public final class Layout {
  private final List<Symbol> symbols = new ArrayList<>();
  private final Names controller = new Names(true);
  private final Names field = new Names(false);
  private Definitions definitions = Definitions.NONE;

  /** Who can name a value. */
  public enum Seen {
    BY_ALL,
    BY_CONTROLLER,
    BY_FIELD,
    /** Memory: part of the state of a run, out of reach of every expression. */
    BY_NOBODY
  }

  /**
   * Adds a value.
   *
   * @return its symbol; null when the name is taken in a scope it would be seen in
   */
  public Symbol add(
      String name,
      Type type,
      Symbol.Kind kind,
      Seen seen,
      String unit,
      String text,
      Position declared) {
    return add(name, type, kind, seen, unit, text, declared, null, 0);
  }

  /**
   * Adds a value; a STRING takes several cells, in a row.
   *
   * @param enumeration of an ENUM, else null
   * @param length most bytes of a STRING, else 0
   * @return its symbol; null when the name is taken in a scope it would be seen in
   */
  public Symbol add(
      String name,
      Type type,
      Symbol.Kind kind,
      Seen seen,
      String unit,
      String text,
      Position declared,
      Enumeration enumeration,
      int length) {
    boolean toController = seen == Seen.BY_ALL || seen == Seen.BY_CONTROLLER;
    boolean toField = seen == Seen.BY_ALL || seen == Seen.BY_FIELD;
    if (toController && controller.find(name) != null || toField && field.find(name) != null) {
      return null;
    }
    Symbol symbol =
        new Symbol(symbols.size(), name, type, kind, unit, text, declared, enumeration, length);
    symbols.add(symbol);
    for (int i = 1; i < symbol.cells(); i++) {
      remember(name + "#" + i, Type.LWORD);
    }
    if (toController) {
      controller.put(symbol);
    }
    if (toField) {
      field.put(symbol);
    }
    return symbol;
  }

  /**
   * Adds a cell of memory.
   *
   * @param name for traces; {@code #} tells it from names that expressions know
   */
  public Symbol remember(String name, Type type) {
    return add(name, type, Symbol.Kind.INTERNAL, Seen.BY_NOBODY, "", "", Position.ofFile(""));
  }

  /** Defines types, constants and arrays for both scopes. */
  public void define(Definitions all) {
    definitions = all;
  }

  /** Adds memory for a value, in a row; gives its first cell. */
  public Symbol remember(String name, ValueType type) {
    Symbol first =
        add(
            name,
            type.type(),
            Symbol.Kind.INTERNAL,
            Seen.BY_NOBODY,
            "",
            "",
            Position.ofFile(""),
            type.enumeration(),
            type.length());
    for (int i = first.cells(); i < type.cells(); i++) {
      remember(name + "#" + i, type.type() == Type.STRING ? Type.LWORD : type.type());
    }
    return first;
  }

  private Symbol scratchOf(int cells) {
    Symbol first = remember("string#" + symbols.size(), Type.LWORD);
    for (int i = 1; i < cells; i++) {
      remember("string#" + symbols.size(), Type.LWORD);
    }
    return first;
  }

  /** What the controller's expressions may name. */
  public Scope controller() {
    return controller;
  }

  /** What circuits, hazards, scenarios and Modbus maps may name. */
  public Scope field() {
    return field;
  }

  /** The value of a cell. */
  public Symbol symbol(int cell) {
    return symbols.get(cell);
  }

  /** How many cells there are so far. */
  public int size() {
    return symbols.size();
  }

  /** Every value, by cell. */
  public List<Symbol> symbols() {
    return List.copyOf(symbols);
  }

  /** Values the field scope sees, by cell. */
  public List<Symbol> observable() {
    return symbols.stream().filter(s -> field.find(s.name()) == s).toList();
  }

  private final class Names implements Scope {
    private final boolean remembers;
    private final Map<String, Symbol> byName = new TreeMap<>();

    Names(boolean remembers) {
      this.remembers = remembers;
    }

    @Override
    public Definitions definitions() {
      return definitions;
    }

    @Override
    public Symbol scratch(int cells) {
      return remembers ? scratchOf(cells) : null;
    }

    void put(Symbol symbol) {
      byName.put(symbol.name().toLowerCase(Locale.ROOT), symbol);
    }

    @Override
    public Symbol find(String name) {
      return byName.get(name.toLowerCase(Locale.ROOT));
    }

    @Override
    public Collection<String> names() {
      return byName.values().stream().map(Symbol::name).toList();
    }
  }
}
