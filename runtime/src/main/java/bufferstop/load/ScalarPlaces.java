package bufferstop.load;

import bufferstop.model.SourceText;
import org.yaml.snakeyaml.nodes.ScalarNode;

/**
 * Finds the place of each character of a YAML scalar in its file: walks value and file side by
 * side, passing over the indentation, quotes, line folds and escapes that the value no longer
 * holds.
 */
final class ScalarPlaces {
  private final String text;
  private int line;
  private int column;
  private int at;

  private ScalarPlaces(String text, int from, int line, int column) {
    this.text = text;
    this.at = from;
    this.line = line;
    this.column = column;
  }

  /** Places of a scalar's value; {@code start} is the offset of its first mark in the file. */
  static SourceText of(String file, String text, int start, ScalarNode node) {
    int line = node.getStartMark().getLine() + 1;
    int column = node.getStartMark().getColumn() + 1;
    ScalarPlaces walk = new ScalarPlaces(text, start, line, column);
    boolean block = text.startsWith("|", start) || text.startsWith(">", start);
    if (block && !node.isPlain()) {
      walk.skipLine();
    } else if (!node.isPlain()) {
      walk.advance(); // the quote
    }
    return walk.follow(file, node.getValue());
  }

  /** Places of text that stands in the file just so. */
  static SourceText verbatim(
      String file, String text, String value, int start, int line, int column) {
    return new ScalarPlaces(text, start, line, column).follow(file, value);
  }

  private SourceText follow(String file, String value) {
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    for (int i = 0; i < value.length(); i++) {
      seek(value.charAt(i));
      lines[i] = line;
      columns[i] = column;
      if (at < text.length() && matches(value.charAt(i))) {
        advance();
      }
    }
    lines[value.length()] = line;
    columns[value.length()] = column;
    return new SourceText(value, file, lines, columns);
  }

  private boolean matches(char wanted) {
    return text.charAt(at) == wanted;
  }

  /** Stops at {@code wanted}; a blank of the value may stand for any white space of the file. */
  private void seek(char wanted) {
    if (Character.isWhitespace(wanted) && wanted != '\n') {
      return;
    }
    int line0 = line;
    int column0 = column;
    int at0 = at;
    while (at < text.length() && !matches(wanted)) {
      if (!passable(text.charAt(at))) {
        line = line0; // an escape such as \x41 that spells the character otherwise
        column = column0;
        at = at0;
        return;
      }
      advance();
    }
  }

  private static boolean passable(char c) {
    return Character.isWhitespace(c) || c == '\\' || c == '\'' || c == '"';
  }

  private void skipLine() {
    int start = line;
    while (at < text.length() && line == start) {
      advance();
    }
  }

  private void advance() {
    if (text.charAt(at) == '\n') {
      line++;
      column = 1;
    } else {
      column++;
    }
    at++;
  }
}
