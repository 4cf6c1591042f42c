package bufferstop.trace;

import bufferstop.model.Enumeration;
import bufferstop.model.Symbol;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.zip.CRC32C;

/**
 * The canonical encoding of a run, digested as it is made and, where wanted, written to a file,
 * which then holds exactly the bytes that were digested. A number is a varint: seven bits a byte,
 * the lowest first, the eighth bit set on all but the last. A text is its length in bytes, then
 * UTF-8.
 *
 * <pre>
 * header  "BSTRACE2", scan period in µs, number of values,
 *         then for each value by cell: its name, type, kind and unit, four texts; the type
 *         as declared, that of an enumeration "ENUM NAME(VALUE,...)"; further cells of a
 *         STRING[n] follow as values of their own
 * scan    periods since the scan before (the first: since one period before time zero),
 *         number of values that changed, then for each of them by cell:
 *           cells since the changed one before (the first: since cell -1),
 *           REAL and LREAL: bits of a double, exclusive or with those before;
 *           other types: value minus the one before, d coded as 2d, or as -2d - 1 below zero
 *         number of events, then the text of each
 * </pre>
 *
 * Before the first scan every value counts as 0. A scan without events allocates nothing.
 */
public final class TraceWriter implements AutoCloseable {
  static final String MAGIC = "BSTRACE2";
  private static final int PER_CHANGE = 20; // two varints of 64 bits
  private static final int ROOM = 64;

  private final MessageDigest digest;
  private final CRC32C crc = new CRC32C();
  private final OutputStream file; // null to digest alone
  private final boolean[] real;
  private final long[] last;
  private byte[] buffer;
  private int length;
  private byte[] events = new byte[ROOM];
  private int eventsLength;
  private int eventCount;
  private long lastPeriod = -1;
  private long bytes;

  /**
   * @param symbols every value of the layout, by cell
   * @param file buffered; closed by {@link #close}; null to digest alone
   * @throws UncheckedIOException when the file cannot be written
   */
  public TraceWriter(List<Symbol> symbols, long periodMicros, OutputStream file) {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java platform has it
    }
    this.file = file;
    last = new long[symbols.size()];
    real = new boolean[symbols.size()];
    buffer = new byte[ROOM + PER_CHANGE * symbols.size()];
    put(MAGIC.getBytes(StandardCharsets.US_ASCII));
    number(periodMicros);
    number(symbols.size());
    emit();
    for (Symbol symbol : symbols) {
      real[symbol.index()] = symbol.type().isReal();
      text(symbol.name());
      text(type(symbol));
      text(symbol.kind().words());
      text(symbol.unit());
      emit();
    }
  }

  private static String type(Symbol symbol) {
    Enumeration values = symbol.enumeration();
    return values == null
        ? symbol.typeName()
        : "ENUM " + values.name() + "(" + String.join(",", values.values()) + ")";
  }

  /** Something that happened since the last scan; it goes with the next one. */
  public void event(String text) {
    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
    int needed = eventsLength + utf8.length + PER_CHANGE;
    if (needed > events.length) {
      events = Arrays.copyOf(events, 2 * needed);
    }
    byte[] scanBuffer = buffer;
    int scanLength = length;
    buffer = events;
    length = eventsLength;
    number(utf8.length);
    put(utf8);
    events = buffer;
    eventsLength = length;
    buffer = scanBuffer;
    length = scanLength;
    eventCount++;
  }

  /**
   * Takes the image after a scan.
   *
   * @throws UncheckedIOException when the file cannot be written
   */
  public void scan(long period, long[] cells) {
    number(period - lastPeriod);
    lastPeriod = period;
    int changes = 0;
    for (int i = 0; i < last.length; i++) {
      changes += cells[i] != last[i] ? 1 : 0;
    }
    number(changes);
    int before = -1;
    for (int i = 0; i < last.length; i++) {
      if (cells[i] != last[i]) {
        number(i - before);
        long difference = cells[i] - last[i];
        number(real[i] ? cells[i] ^ last[i] : difference << 1 ^ difference >> 63);
        last[i] = cells[i];
        before = i;
      }
    }
    number(eventCount);
    emit();
    if (eventCount > 0) {
      emit(events, eventsLength);
      eventsLength = 0;
      eventCount = 0;
    }
  }

  private void number(long value) {
    long rest = value;
    while ((rest & ~0x7FL) != 0) {
      buffer[length++] = (byte) (rest & 0x7F | 0x80);
      rest >>>= 7;
    }
    buffer[length++] = (byte) rest;
  }

  private void text(String text) {
    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
    number(utf8.length);
    put(utf8);
  }

  private void put(byte[] more) {
    if (length + more.length + PER_CHANGE > buffer.length) {
      buffer = Arrays.copyOf(buffer, 2 * (length + more.length + PER_CHANGE));
    }
    System.arraycopy(more, 0, buffer, length, more.length);
    length += more.length;
  }

  private void emit() {
    emit(buffer, length);
    length = 0;
  }

  private void emit(byte[] from, int count) {
    digest.update(from, 0, count);
    crc.update(from, 0, count);
    bytes += count;
    if (file != null) {
      try {
        file.write(from, 0, count);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** CRC-32C of everything so far: tells, unlike the digest, where two runs part. */
  public long crc() {
    return crc.getValue();
  }

  /** Bytes so far. */
  public long bytes() {
    return bytes;
  }

  /** The identity of the run so far, lower-case hex; nothing can be added after it. */
  public String sha256() {
    return HexFormat.of().formatHex(digest.digest());
  }

  @Override
  public void close() {
    if (file != null) {
      try {
        file.close();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
