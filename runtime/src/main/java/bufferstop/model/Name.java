package bufferstop.model;

/**
 * A name the user wrote as a reference.
 *
 * @param text as written
 * @param position where
 */
public record Name(String text, Position position) {}
