package bufferstop.spi;

import java.util.List;

/**
 * One parameter of a plant model, as plain data; the host checks project files against it and makes
 * documentation from it. Build one with the factory methods.
 *
 * @param name key in the file, lower case with underscores
 * @param kind what may stand there
 * @param unit SI unit of a number, else empty
 * @param min least number allowed (inclusive)
 * @param max greatest number allowed (inclusive)
 * @param fallback text of the default as it would be written in the file; null when required
 * @param choices the words allowed for {@link Kind#CHOICE}
 * @param fields the fields of {@link Kind#ITEM}, {@link Kind#LIST} and {@link Kind#NAMED}
 * @param text one line of documentation
 */
public record Parameter(
    String name,
    Kind kind,
    String unit,
    double min,
    double max,
    String fallback,
    List<String> choices,
    List<Parameter> fields,
    String text) {

  /** What may stand as a parameter's value. */
  public enum Kind {
    /** TRUE or FALSE. */
    BOOL,
    /** A whole number within min and max. */
    INTEGER,
    /** A number within min and max. */
    NUMBER,
    /** Free text. */
    TEXT,
    /** One of the given words. */
    CHOICE,
    /** A mapping with the given fields. */
    ITEM,
    /** A sequence of mappings with the given fields. */
    LIST,
    /** A mapping from names of the user's choice to mappings with the given fields, order kept. */
    NAMED
  }

  /** A required number in SI units. */
  public static Parameter number(String name, String unit, double min, double max, String text) {
    return new Parameter(name, Kind.NUMBER, unit, min, max, null, List.of(), List.of(), text);
  }

  /** A required whole number. */
  public static Parameter integer(String name, long min, long max, String text) {
    return new Parameter(name, Kind.INTEGER, "", min, max, null, List.of(), List.of(), text);
  }

  /** A required truth value. */
  public static Parameter bool(String name, String text) {
    return new Parameter(name, Kind.BOOL, "", 0, 1, null, List.of(), List.of(), text);
  }

  /** Required free text. */
  public static Parameter text(String name, String text) {
    return new Parameter(name, Kind.TEXT, "", 0, 0, null, List.of(), List.of(), text);
  }

  /** A required word out of a few. */
  public static Parameter choice(String name, List<String> choices, String text) {
    return new Parameter(name, Kind.CHOICE, "", 0, 0, null, choices, List.of(), text);
  }

  /** A required nested mapping. */
  public static Parameter item(String name, List<Parameter> fields, String text) {
    return new Parameter(name, Kind.ITEM, "", 0, 0, null, List.of(), fields, text);
  }

  /** A list of mappings, empty when not given. */
  public static Parameter list(String name, List<Parameter> fields, String text) {
    return new Parameter(name, Kind.LIST, "", 0, 0, "[]", List.of(), fields, text);
  }

  /** Named mappings, empty when not given. */
  public static Parameter named(String name, List<Parameter> fields, String text) {
    return new Parameter(name, Kind.NAMED, "", 0, 0, "{}", List.of(), fields, text);
  }

  /**
   * The same parameter, no longer required.
   *
   * @param value what it is when not given, as it would be written in the file; an empty string on
   *     an {@link Kind#ITEM} means that {@link Settings#has} tells
   */
  public Parameter orElse(String value) {
    return new Parameter(name, kind, unit, min, max, value, choices, fields, text);
  }
}
