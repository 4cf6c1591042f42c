package bufferstop.model;

/**
 * A declared point of the controller.
 *
 * @param kind input, output, operator or internal
 * @param name as declared
 * @param type its type
 * @param text one line for the I/O list
 * @param terminal where the wire lands, may be empty
 * @param supply the supply that feeds it, or null
 * @param node the remote I/O node it is on, or null for the controller's own rack
 * @param filterMicros input filter of the hardware, 0 for none
 * @param initial value at a cold start, in the encoding of {@link Type}
 * @param safe an output's value on trip, stop or failure
 * @param least least value an operator may write, in the encoding of the type; null without a range
 * @param greatest greatest value an operator may write; null without a range
 * @param momentary TRUE for exactly one scan after a write
 * @param holdMicros falls to FALSE unless written again within this time; 0 for not
 * @param retain whether it keeps its value over a warm restart
 * @param position of the declaration
 * @param enumeration of an ENUM, else null
 * @param length most bytes of a STRING, else 0
 * @param initialText of a STRING, else null
 */
public record Point(
    Symbol.Kind kind,
    String name,
    Type type,
    String text,
    String terminal,
    Name supply,
    Name node,
    long filterMicros,
    long initial,
    long safe,
    Long least,
    Long greatest,
    boolean momentary,
    long holdMicros,
    boolean retain,
    Position position,
    Enumeration enumeration,
    int length,
    String initialText) {

  /** One that an operator writes, without a range and not retained. */
  public static Point operator(
      String name,
      ValueType type,
      String text,
      long initial,
      boolean momentary,
      Position position) {
    return new Point(
        Symbol.Kind.OPERATOR,
        name,
        type.type(),
        text,
        "",
        null,
        null,
        0,
        initial,
        0,
        null,
        null,
        momentary,
        0,
        false,
        position,
        type.enumeration(),
        type.length(),
        null);
  }

  /** Another element of the array that this one is of. */
  public Point element(String element, long startsWith, String startsWithText) {
    return new Point(
        kind,
        element,
        type,
        text,
        terminal,
        supply,
        node,
        filterMicros,
        startsWith,
        safe,
        least,
        greatest,
        momentary,
        holdMicros,
        retain,
        position,
        enumeration,
        length,
        startsWithText);
  }

  /** The same on no node. */
  Point onOwnRack() {
    return new Point(
        kind,
        name,
        type,
        text,
        terminal,
        supply,
        null,
        filterMicros,
        initial,
        safe,
        least,
        greatest,
        momentary,
        holdMicros,
        retain,
        position,
        enumeration,
        length,
        initialText);
  }

  /** Its type as declared. */
  public String typeName() {
    return Values.typeName(type, enumeration, length);
  }

  /** Whether an operator may write a STRING: it has room, and every character is one byte. */
  public boolean admits(String value) {
    return value.length() <= length && value.chars().allMatch(c -> c <= 0xFF);
  }

  /**
   * Whether an operator may write {@code bits}: no range, or inside it, and never NaN or infinite.
   */
  public boolean admits(long bits) {
    if (enumeration != null) {
      return bits >= 0 && bits < enumeration.values().size();
    }
    if (type == Type.STRING) {
      return false; // more than one cell
    }
    if (type.isReal() && !Double.isFinite(Double.longBitsToDouble(bits))) {
      return false;
    }
    if (least == null) {
      return type != Type.BOOL || bits == 0 || bits == 1;
    }
    return switch (type) {
      case REAL, LREAL ->
          Double.longBitsToDouble(bits) >= Double.longBitsToDouble(least)
              && Double.longBitsToDouble(bits) <= Double.longBitsToDouble(greatest);
      case ULINT, LWORD ->
          Long.compareUnsigned(bits, least) >= 0 && Long.compareUnsigned(bits, greatest) <= 0;
      default -> bits >= least && bits <= greatest;
    };
  }
}
