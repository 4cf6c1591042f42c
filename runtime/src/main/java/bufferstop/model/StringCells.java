package bufferstop.model;

import java.util.Arrays;
import java.util.List;

/**
 * How a STRING lies in cells: its length in bytes, then the bytes, eight to a cell, the first in
 * the highest bits; bytes beyond its length are 0. A character is one byte.
 */
public final class StringCells {
  /** Most bytes of a STRING. */
  public static final int LONGEST = 254;

  private static final int PER_CELL = Long.BYTES;

  private StringCells() {}

  /** Cells that a STRING of at most {@code length} bytes takes. */
  public static int cells(int length) {
    return 1 + (length + PER_CELL - 1) / PER_CELL;
  }

  /** The cells of a text, as few as hold it. */
  public static long[] pack(String text) {
    long[] cells = new long[cells(text.length())];
    cells[0] = text.length();
    for (int i = 0; i < text.length(); i++) {
      cells[1 + i / PER_CELL] |= (text.charAt(i) & 0xFFL) << shift(i);
    }
    return cells;
  }

  /** The same as a list. */
  public static List<Long> packed(String text) {
    return Arrays.stream(pack(text)).boxed().toList();
  }

  /** Distance of the lowest bit of a byte in its cell. */
  public static int shift(int index) {
    return Byte.SIZE * (PER_CELL - 1 - index % PER_CELL);
  }

  /** The text that begins at a cell. */
  public static String unpack(long[] cells, int at) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < cells[at]; i++) {
      text.append((char) (cells[at + 1 + i / PER_CELL] >>> shift(i) & 0xFF));
    }
    return text.toString();
  }

  /** A text as a literal: {@code 'it$'s'}. */
  public static String literal(String text) {
    StringBuilder out = new StringBuilder("'");
    for (char c : text.toCharArray()) {
      if (c == '$' || c == '\'') {
        out.append('$').append(c);
      } else if (c < ' ' || c == 0x7F) {
        out.append(String.format("$%02X", (int) c));
      } else {
        out.append(c);
      }
    }
    return out.append('\'').toString();
  }
}
