package bufferstop.trace;

import bufferstop.model.Enumeration;
import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads a trace scan by scan, holding one image at a time. A file that was cut off is read up to
 * its last whole scan.
 */
public final class TraceReader implements AutoCloseable {
  private static final int BUFFER = 1 << 16;
  private static final int LONGEST_TEXT = 1 << 20;
  private static final int MOST_VALUES = 1 << 24;
  private static final Pattern TYPE =
      Pattern.compile(
          "(?<type>[A-Z]+)( (?<name>\\w+)\\((?<values>[\\w,]+)\\)|\\[(?<length>\\d{1,3})\\])?");

  private final InputStream in;
  private final long periodMicros;
  private final List<Symbol> symbols;
  private final int[] first; // by cell: that of its value
  private final long[] cells;
  private final int[] changed;
  private int changes;
  private List<String> events = List.of();
  private long period = -1;
  private boolean cut;

  private TraceReader(InputStream in) throws IOException {
    this.in = in;
    byte[] magic = in.readNBytes(TraceWriter.MAGIC.length());
    if (!new String(magic, StandardCharsets.US_ASCII).equals(TraceWriter.MAGIC)) {
      throw new IOException("this is no trace: it does not begin with " + TraceWriter.MAGIC);
    }
    periodMicros = number();
    long count = number();
    if (periodMicros <= 0 || count < 0 || count > MOST_VALUES) {
      throw new IOException("the header of the trace is damaged");
    }
    List<Symbol> all = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      all.add(symbol(i));
    }
    symbols = List.copyOf(all);
    first = new int[symbols.size()];
    for (int i = 0; i < first.length; i++) {
      first[i] = i;
      int end = Math.min(first.length, i + symbols.get(i).cells());
      while (i + 1 < end) {
        first[i + 1] = first[i];
        i++;
      }
    }
    cells = new long[symbols.size()];
    changed = new int[symbols.size()];
  }

  /**
   * Opens a file.
   *
   * @throws IOException when it is no trace; the message says why
   */
  public static TraceReader open(Path file) throws IOException {
    InputStream in = new BufferedInputStream(Files.newInputStream(file), BUFFER);
    try {
      return new TraceReader(in);
    } catch (EOFException e) {
      in.close();
      throw new IOException("the header of the trace is cut off", e);
    } catch (IOException | RuntimeException e) {
      in.close();
      throw e;
    }
  }

  private Symbol symbol(int index) throws IOException {
    String name = text();
    String type = text();
    String kind = text();
    String unit = text();
    Matcher words = TYPE.matcher(type);
    Type known =
        Arrays.stream(Type.values())
            .filter(t -> words.matches() && t.name().equals(words.group("type")))
            .findFirst()
            .orElse(null);
    if (known == null) {
      throw new IOException("`" + name + "` is of the unknown type `" + type + "`");
    }
    Position nowhere = Position.ofFile("");
    String values = words.group("values");
    Enumeration enumeration =
        values == null
            ? null
            : new Enumeration(words.group("name"), List.of(values.split(",")), nowhere);
    int length = words.group("length") == null ? 0 : Integer.parseInt(words.group("length"));
    Symbol.Kind found = Symbol.Kind.INTERNAL;
    for (Symbol.Kind one : Symbol.Kind.values()) {
      found = one.words().equals(kind) ? one : found;
    }
    return new Symbol(index, name, known, found, unit, "", nowhere, enumeration, length);
  }

  private long number() throws IOException {
    long value = 0;
    for (int shift = 0; ; shift += 7) {
      int next = in.read();
      if (next < 0) {
        throw new EOFException();
      }
      value |= (long) (next & 0x7F) << shift;
      if (next < 0x80) {
        return value;
      }
      if (shift > 56) {
        throw new IOException("a number in the trace is too long");
      }
    }
  }

  private String text() throws IOException {
    long length = number();
    if (length < 0 || length > LONGEST_TEXT) {
      throw new IOException("a text in the trace is too long");
    }
    byte[] utf8 = in.readNBytes((int) length);
    if (utf8.length < length) {
      throw new EOFException();
    }
    return new String(utf8, StandardCharsets.UTF_8);
  }

  /**
   * Goes on to the next scan.
   *
   * @return whether there was one
   * @throws IOException when the file is damaged
   */
  public boolean next() throws IOException {
    in.mark(1);
    if (in.read() < 0) {
      return false;
    }
    in.reset();
    try {
      long next = period + number();
      long count = number();
      if (count < 0 || count > cells.length) {
        throw new IOException("a scan of the trace is damaged");
      }
      int cell = -1;
      int found = 0;
      for (int i = 0; i < count; i++) {
        long gap = number();
        if (gap < 1 || cell + gap >= cells.length) {
          throw new IOException("a scan of the trace is damaged");
        }
        cell += (int) gap;
        long code = number();
        boolean real = symbols.get(cell).type().isReal();
        cells[cell] = real ? cells[cell] ^ code : cells[cell] + (code >>> 1 ^ -(code & 1));
        if (found == 0 || changed[found - 1] != first[cell]) {
          changed[found++] = first[cell];
        }
      }
      long told = number();
      List<String> texts = new ArrayList<>();
      for (long i = 0; i < told; i++) {
        texts.add(text());
      }
      period = next;
      changes = found;
      events = texts;
      return true;
    } catch (EOFException e) {
      cut = true;
      return false;
    }
  }

  public long periodMicros() {
    return periodMicros;
  }

  /** Every value, by its first cell. */
  public List<Symbol> values() {
    return symbols.stream().filter(s -> first[s.index()] == s.index()).toList();
  }

  /** Every cell; a STRING's after its first one are named after it, with a {@code #}. */
  public List<Symbol> symbols() {
    return symbols;
  }

  /** Logical time of the present scan; negative before the first. */
  public long nowMicros() {
    return period * periodMicros;
  }

  /** The image after the present scan; read only. */
  public long[] cells() {
    return cells;
  }

  /** How many values changed in the present scan. */
  public int changes() {
    return changes;
  }

  /** The first cell of a value that changed in the present scan, by the change's number. */
  public int changed(int number) {
    return changed[number];
  }

  /** What happened in the present scan beside its values. */
  public List<String> events() {
    return events;
  }

  /** Whether the file ended in the middle of a scan. */
  public boolean isCut() {
    return cut;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
