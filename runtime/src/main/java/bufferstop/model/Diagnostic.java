package bufferstop.model;

import java.util.List;
import java.util.Objects;

/**
 * One problem in a user's file.
 *
 * @param severity error or warning
 * @param code the kind of mistake
 * @param position smallest span at fault
 * @param message what is wrong: lower case, no full stop, the user's text in backquotes
 * @param expected what would be right; may be empty
 * @param notes other places that matter
 * @param help how to mend it; may be empty
 */
public record Diagnostic(
    Severity severity,
    Code code,
    Position position,
    String message,
    String expected,
    List<Note> notes,
    String help) {

  /** How bad it is. */
  public enum Severity {
    /** Cannot be run. */
    ERROR,
    /** Can be run, but probably not meant. */
    WARNING
  }

  /**
   * Another place that matters.
   *
   * @param position the place
   * @param text what is there
   */
  public record Note(Position position, String text) {}

  public Diagnostic {
    Objects.requireNonNull(severity);
    Objects.requireNonNull(code);
    Objects.requireNonNull(position);
    notes = List.copyOf(notes);
  }

  public static Diagnostic error(Code code, Position position, String message) {
    return new Diagnostic(Severity.ERROR, code, position, message, "", List.of(), "");
  }

  public static Diagnostic warning(Code code, Position position, String message) {
    return new Diagnostic(Severity.WARNING, code, position, message, "", List.of(), "");
  }

  /** The same with the {@code expected:} line. */
  public Diagnostic expected(String text) {
    return new Diagnostic(severity, code, position, message, text, notes, help);
  }

  /** The same with a {@code help:} line. */
  public Diagnostic help(String text) {
    return new Diagnostic(severity, code, position, message, expected, notes, text);
  }

  /** The same with one note; a place in no file, where the product itself declares, gives none. */
  public Diagnostic note(Position place, String text) {
    if (place.file().isEmpty()) {
      return this;
    }
    return new Diagnostic(
        severity, code, position, message, expected, List.of(new Note(place, text)), help);
  }
}
