package bufferstop.st;

import bufferstop.model.StringCells;
import bufferstop.model.Type;

/**
 * What is done with STRINGs in cells, see {@link StringCells}. A value is the first cell of its
 * string. Results are put into cells of their own and cut where these end. Nothing here allocates.
 */
final class Strings {
  /** The empty string, which needs no cells. */
  static final long EMPTY = 0;

  private static final int PER_CELL = Long.BYTES;

  private Strings() {}

  static int length(long text, long[] cells) {
    return text == EMPTY ? 0 : (int) cells[(int) text];
  }

  static int byteAt(long text, int index, long[] cells) {
    return (int) (cells[(int) text + 1 + index / PER_CELL] >>> StringCells.shift(index)) & 0xFF;
  }

  private static void clear(int into, int capacity, long[] cells) {
    for (int i = into + StringCells.cells(capacity) - 1; i >= into; i--) {
      cells[i] = 0;
    }
  }

  /** Adds a byte; one that has no room is left out. */
  private static void add(int into, int value, int capacity, long[] cells) {
    int at = (int) cells[into];
    if (at < capacity) {
      cells[into + 1 + at / PER_CELL] |= (long) value << StringCells.shift(at);
      cells[into] = at + 1;
    }
  }

  private static void add(long text, int from, int end, int into, int capacity, long[] cells) {
    for (int i = from; i < end; i++) {
      add(into, byteAt(text, i, cells), capacity, cells);
    }
  }

  /** Copies a string over another, cut to what that holds. */
  static void copy(long text, int into, int capacity, long[] cells) {
    if (text != into) {
      int length = length(text, cells);
      clear(into, capacity, cells);
      add(text, 0, length, into, capacity, cells);
    }
  }

  static long literal(String text, int into, long[] cells) {
    clear(into, text.length(), cells);
    for (int i = 0; i < text.length(); i++) {
      add(into, text.charAt(i), text.length(), cells);
    }
    return into;
  }

  static long concat(long a, long b, int into, int capacity, long[] cells, int place) {
    clear(into, capacity, cells);
    add(a, 0, length(a, cells), into, capacity, cells);
    add(b, 0, length(b, cells), into, capacity, cells);
    return into;
  }

  static long left(long text, long count, int into, int capacity, long[] cells, int place) {
    if (count < 0) {
      return Faults.raise(cells, place);
    }
    int end = (int) Math.min(count, length(text, cells));
    clear(into, capacity, cells);
    add(text, 0, end, into, capacity, cells);
    return into;
  }

  static long right(long text, long count, int into, int capacity, long[] cells, int place) {
    if (count < 0) {
      return Faults.raise(cells, place);
    }
    int end = length(text, cells);
    clear(into, capacity, cells);
    add(text, (int) Math.max(0, end - count), end, into, capacity, cells);
    return into;
  }

  /** {@code count} characters from the one at {@code from}, the first being 1. */
  static long mid(
      long text, long count, long from, int into, int capacity, long[] cells, int place) {
    if (count < 0 || from < 1) {
      return Faults.raise(cells, place);
    }
    int length = length(text, cells);
    int first = (int) Math.min(from - 1, length);
    int end = (int) Math.min(count, length - first) + first;
    clear(into, capacity, cells);
    add(text, first, end, into, capacity, cells);
    return into;
  }

  /** Where {@code part} first begins in {@code text}, from 1; 0 for nowhere, or an empty part. */
  static long find(long text, long part, long[] cells) {
    int length = length(part, cells);
    for (int at = 0; length > 0 && at + length <= length(text, cells); at++) {
      int same = 0;
      while (same < length && byteAt(text, at + same, cells) == byteAt(part, same, cells)) {
        same++;
      }
      if (same == length) {
        return at + 1;
      }
    }
    return 0;
  }

  static long len(long text, long[] cells) {
    return length(text, cells);
  }

  /** Negative, 0 or positive, by the first byte that differs, else by length. */
  static int compare(long a, long b, long[] cells) {
    int shorter = Math.min(length(a, cells), length(b, cells));
    for (int i = 0; i < shorter; i++) {
      int order = byteAt(a, i, cells) - byteAt(b, i, cells);
      if (order != 0) {
        return order;
      }
    }
    return length(a, cells) - length(b, cells);
  }

  static int compare(long a, String b, long[] cells) {
    int shorter = Math.min(length(a, cells), b.length());
    for (int i = 0; i < shorter; i++) {
      int order = byteAt(a, i, cells) - b.charAt(i);
      if (order != 0) {
        return order;
      }
    }
    return length(a, cells) - b.length();
  }

  static long truth(long value, int into, int capacity, long[] cells, int place) {
    return literal(value != 0 ? "TRUE" : "FALSE", into, cells);
  }

  static long signed(long value, int into, int capacity, long[] cells, int place) {
    clear(into, capacity, cells);
    if (value < 0) {
      add(into, '-', capacity, cells);
    }
    digits(value < 0 ? -value : value, into, capacity, cells); // the least value stays: unsigned
    return into;
  }

  static long unsigned(long value, int into, int capacity, long[] cells, int place) {
    clear(into, capacity, cells);
    digits(value, into, capacity, cells);
    return into;
  }

  private static void digits(long unsigned, int into, int capacity, long[] cells) {
    long power = 1;
    while (Long.compareUnsigned(Long.divideUnsigned(unsigned, power), 10) >= 0) {
      power *= 10;
    }
    while (power != 0) {
      long digit = Long.remainderUnsigned(Long.divideUnsigned(unsigned, power), 10);
      add(into, '0' + (int) digit, capacity, cells);
      power = Long.divideUnsigned(power, 10);
    }
  }

  /** An integer in decimal digits, a sign before them if wanted; anything else is an error. */
  static long number(long text, Type type, long[] cells, int place) {
    int length = length(text, cells);
    boolean minus = length > 0 && byteAt(text, 0, cells) == '-';
    boolean signed = minus || length > 0 && byteAt(text, 0, cells) == '+';
    long value = 0;
    boolean good = length > (signed ? 1 : 0);
    for (int i = signed ? 1 : 0; good && i < length; i++) {
      int digit = byteAt(text, i, cells) - '0';
      boolean room = Long.compareUnsigned(value, Long.divideUnsigned(-1L - digit, 10)) <= 0;
      good = digit >= 0 && digit <= 9 && room;
      value = value * 10 + digit;
    }
    if (!good) {
      return Faults.raise(cells, place);
    }
    boolean fits =
        type == Type.ULINT
            ? !minus || value == 0
            : minus
                ? Long.compareUnsigned(value, Long.MIN_VALUE) <= 0 && type.holds(-value)
                : value >= 0 && type.holds(value);
    return fits ? (minus ? -value : value) : Faults.raise(cells, place);
  }
}
