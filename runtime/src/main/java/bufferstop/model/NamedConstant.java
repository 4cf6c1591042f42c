package bufferstop.model;

/**
 * A value with a name.
 *
 * @param enumeration of an ENUM, else null
 * @param bits in the encoding of the type
 * @param text of a STRING, else null
 */
public record NamedConstant(
    String name, Type type, Enumeration enumeration, long bits, String text, Position position) {}
