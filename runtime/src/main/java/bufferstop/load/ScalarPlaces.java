package bufferstop.load;

import bufferstop.model.SourceText;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.nodes.ScalarNode;

/**
 * Finds the place of each character of a YAML scalar in its file: walks value and file side by
 * side, passing over the indentation, quotes, line folds and escapes that the value no longer
 * holds. Columns count characters, not the two halves that Java makes of some.
 */
final class ScalarPlaces {
  private final String text;
  private final ScalarStyle style;
  private int line;
  private int column;
  private int at;

  private ScalarPlaces(String text, ScalarStyle style, int from, int line, int column) {
    this.text = text;
    this.style = style;
    this.at = from;
    this.line = line;
    this.column = column;
  }

  /** Places of a scalar's value; {@code start} is the offset of its first mark in the file. */
  static SourceText of(String file, String text, int start, ScalarNode node) {
    int line = node.getStartMark().getLine() + 1;
    int column = node.getStartMark().getColumn() + 1;
    ScalarStyle style = node.getScalarStyle();
    ScalarPlaces walk = new ScalarPlaces(text, style, start, line, column);
    switch (style) {
      case LITERAL, FOLDED -> walk.skipLine();
      case SINGLE_QUOTED, DOUBLE_QUOTED -> walk.advance();
      default -> {}
    }
    return walk.follow(file, node.getValue());
  }

  /** Places of text that stands in the file just so. */
  static SourceText verbatim(
      String file, String text, String value, int start, int line, int column) {
    return new ScalarPlaces(text, ScalarStyle.PLAIN, start, line, column).follow(file, value);
  }

  private SourceText follow(String file, String value) {
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    for (int i = 0; i < value.length(); i++) {
      seek(value.charAt(i));
      lines[i] = line;
      columns[i] = column;
      pass(value.charAt(i));
    }
    lines[value.length()] = line;
    columns[value.length()] = column;
    return new SourceText(value, file, lines, columns);
  }

  /** Stops at what stands for {@code wanted}, passing over what stands for nothing. */
  private void seek(char wanted) {
    while (isAt('\\') && style == ScalarStyle.DOUBLE_QUOTED && isAt(1, '\n')) {
      advance();
      skipWhite();
    }
    if (!Character.isWhitespace(wanted)) {
      skipWhite();
    } else if (wanted == '\n') {
      while (isAt(' ') || isAt('\t')) {
        advance();
      }
    }
  }

  private void skipWhite() {
    while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
      advance();
    }
  }

  /** Moves behind what stands for {@code c}; a blank may stand for a fold, which stays. */
  private void pass(char c) {
    if (style == ScalarStyle.DOUBLE_QUOTED && isAt('\\')) {
      if (!(Character.isHighSurrogate(c) && isAt(1, 'U'))) {
        advance(escapeLength());
      }
    } else if (style == ScalarStyle.SINGLE_QUOTED && c == '\'' && isAt('\'')) {
      advance(2);
    } else if (isAt(c)) {
      advance();
    }
  }

  /** Source: YAML 1.1, 5.6 Escape Sequences [from memory, not re-read]. */
  private int escapeLength() {
    char kind = at + 1 < text.length() ? text.charAt(at + 1) : ' ';
    return switch (kind) {
      case 'x' -> 4;
      case 'u' -> 6;
      case 'U' -> 10;
      default -> 2;
    };
  }

  private boolean isAt(char c) {
    return isAt(0, c);
  }

  private boolean isAt(int ahead, char c) {
    return at + ahead < text.length() && text.charAt(at + ahead) == c;
  }

  private void skipLine() {
    int start = line;
    while (at < text.length() && line == start) {
      advance();
    }
  }

  private void advance(int count) {
    for (int i = 0; i < count && at < text.length(); i++) {
      advance();
    }
  }

  private void advance() {
    if (at >= text.length()) {
      return;
    }
    char c = text.charAt(at);
    if (c == '\n') {
      line++;
      column = 1;
    } else if (!Character.isHighSurrogate(c)) {
      column++;
    }
    at++;
  }
}
