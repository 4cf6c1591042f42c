package bufferstop.model;

/**
 * A named value of a run, and where it lives in the image.
 *
 * @param index of its cell
 * @param name as declared, dotted below its head
 * @param type how the cell is read
 * @param kind what it is
 * @param unit as printed, may be empty
 * @param text one line for people, may be empty
 * @param declared where, for notes
 * @param enumeration of an ENUM, else null
 * @param length most bytes of a STRING, else 0
 */
public record Symbol(
    int index,
    String name,
    Type type,
    Kind kind,
    String unit,
    String text,
    Position declared,
    Enumeration enumeration,
    int length) {

  /** One of a type that its name says. */
  public Symbol(
      int index, String name, Type type, Kind kind, String unit, String text, Position declared) {
    this(index, name, type, kind, unit, text, declared, null, 0);
  }

  /** One without a unit, or the first element of an array. */
  public Symbol(int index, String name, ValueType type, Kind kind, String text, Position declared) {
    this(index, name, type.type(), kind, "", text, declared, type.enumeration(), type.length());
  }

  /** The same under another name. */
  public Symbol named(String other) {
    return new Symbol(index, other, type, kind, unit, text, declared, enumeration, length);
  }

  /** Cells it takes, from its own on. */
  public int cells() {
    return type == Type.STRING ? StringCells.cells(length) : 1;
  }

  /** Its type as declared. */
  public String typeName() {
    return Values.typeName(type, enumeration, length);
  }

  /** What a named value is. */
  public enum Kind {
    INPUT("input"),
    OUTPUT("output"),
    OPERATOR("operator"),
    INTERNAL("internal"),
    PLANT_PORT("plant port"),

    /** Of the body of a block or function: its index counts from the first cell of the instance. */
    LOCAL("local");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** As the I/O list prints it. */
    public String words() {
      return words;
    }
  }
}
