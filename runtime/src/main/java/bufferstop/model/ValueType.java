package bufferstop.model;

/**
 * The type of a value as declared.
 *
 * @param type of the value, or of an element
 * @param enumeration of an ENUM, else null
 * @param length most bytes of a STRING, else 0
 * @param bounds of an array, else null
 */
public record ValueType(Type type, Enumeration enumeration, int length, ArrayBounds bounds) {

  /** A type that its name says. */
  public static ValueType of(Type type) {
    return new ValueType(type, null, 0, null);
  }

  /** The type of an element, or this. */
  public ValueType element() {
    return new ValueType(type, enumeration, length, null);
  }

  /** Whether it is an array. */
  public boolean isArray() {
    return bounds != null;
  }

  /** Whether a value takes one cell. */
  public boolean isSingle() {
    return bounds == null && type != Type.STRING;
  }

  /** Cells of a value, or from one element to the next. */
  public int stride() {
    return type == Type.STRING ? StringCells.cells(length) : 1;
  }

  /** Cells of a value; of an array those of all its elements. */
  public int cells() {
    return stride() * (bounds == null ? 1 : bounds.count());
  }

  /** The type as a declaration writes it. */
  public String words() {
    String one = Values.typeName(type, enumeration, length);
    return bounds == null
        ? one
        : "ARRAY[" + bounds.least() + ".." + bounds.greatest() + "] OF " + one;
  }
}
