package bufferstop.model;

/**
 * A span of a user's file.
 *
 * @param file as the user named it
 * @param line from 1
 * @param column from 1
 * @param length characters to underline, at least 1, within the line
 */
public record Position(String file, int line, int column, int length)
    implements Comparable<Position> {

  /** The whole of a file, where nothing closer is known. */
  public static Position ofFile(String file) {
    return new Position(file, 1, 1, 1);
  }

  @Override
  public int compareTo(Position other) {
    int byFile = file.compareTo(other.file);
    if (byFile != 0) {
      return byFile;
    }
    return line != other.line
        ? Integer.compare(line, other.line)
        : Integer.compare(column, other.column);
  }

  /** {@code file:line:column}, as editors read it. */
  @Override
  public String toString() {
    return file + ":" + line + ":" + column;
  }
}
