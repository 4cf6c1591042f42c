package bufferstop.load;

import bufferstop.model.Position;
import org.yaml.snakeyaml.error.Mark;

/** Turns the YAML reader's marks into positions and offsets of one file's text. */
final class MarkPlaces {
  private final String file;
  private final String text;
  private final boolean beyondBmp; // marks count code points, strings count chars
  private int knownMark; // marks come in nearly rising order, so each is sought from the last
  private int knownOffset;

  MarkPlaces(String file, String text) {
    this.file = file;
    this.text = text;
    this.beyondBmp = text.chars().anyMatch(c -> Character.isSurrogate((char) c));
  }

  /** Offset of a mark in the text. */
  int offset(Mark mark) {
    if (!beyondBmp) {
      return mark.getIndex();
    }
    knownOffset = text.offsetByCodePoints(knownOffset, mark.getIndex() - knownMark);
    knownMark = mark.getIndex();
    return knownOffset;
  }

  /** YAML marks count from 0; this is the one place that makes them count from 1. */
  Position of(Mark mark, int length) {
    if (mark == null) {
      return Position.ofFile(file);
    }
    int offset = offset(mark);
    boolean behindAll = offset >= text.length() && mark.getColumn() == 0 && offset > 0;
    return behindAll
        ? ofOffset(text.stripTrailing().length())
        : new Position(file, mark.getLine() + 1, mark.getColumn() + 1, Math.max(1, length));
  }

  /** From one mark to another, or to the end of the first one's line. */
  Position of(Mark from, Mark to) {
    return of(from, to.getLine() == from.getLine() ? to.getColumn() - from.getColumn() : 1);
  }

  /** One character of the text. */
  Position ofOffset(int offset) {
    int line = 1;
    int start = 0;
    for (int end = text.indexOf('\n'); end >= 0 && end < offset; end = text.indexOf('\n', start)) {
      line++;
      start = end + 1;
    }
    return new Position(file, line, text.codePointCount(start, offset) + 1, 1);
  }
}
