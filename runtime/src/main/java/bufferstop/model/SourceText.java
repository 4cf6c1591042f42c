package bufferstop.model;

import java.util.Arrays;

/**
 * Text a user wrote, with the place of each of its characters in his file, so that what is found in
 * the middle of an expression is shown there.
 *
 * @param value the text as the file format delivers it
 * @param file as the user named it
 * @param lines for each character of {@code value}, and for its end, the line from 1
 * @param columns likewise the column from 1
 */
public record SourceText(String value, String file, int[] lines, int[] columns) {

  /** Text on one line of a file. */
  public static SourceText onLine(String value, String file, int line, int column) {
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    for (int i = 0; i < lines.length; i++) {
      lines[i] = line;
      columns[i] = column + i;
    }
    return new SourceText(value, file, lines, columns);
  }

  /** Text that no file holds, for tests and for what the product itself writes. */
  public static SourceText of(String value) {
    return onLine(value, "text", 1, 1);
  }

  /**
   * The characters from {@code start} (inclusive) to {@code end} (exclusive), with their places.
   */
  public SourceText part(int start, int end) {
    return new SourceText(
        value.substring(start, end),
        file,
        Arrays.copyOfRange(lines, start, end + 1),
        Arrays.copyOfRange(columns, start, end + 1));
  }

  /** The place of the characters from {@code start} (inclusive) to {@code end} (exclusive). */
  public Position at(int start, int end) {
    int from = Math.min(start, value.length());
    int last = Math.max(from, Math.min(end, value.length()) - 1);
    int length = lines[last] == lines[from] ? columns[last] - columns[from] + 1 : 1;
    return new Position(file, lines[from], columns[from], Math.max(1, length));
  }

  /** The place of the whole text, or of its first line. */
  public Position whole() {
    int end = value.indexOf('\n');
    return at(0, end < 0 ? value.length() : end);
  }
}
