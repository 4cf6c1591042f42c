package bufferstop.trace;

import bufferstop.model.Symbol;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;

/**
 * The canonical encoding of a run, digested as it is made. All numbers big-endian:
 *
 * <pre>
 * header  "BSTRACE1", scan period in µs (8 bytes), number of values (4),
 *         then for each value by cell: length of its name (2), name in UTF-8, ordinal of its type (1)
 * scan    number of the period (8), number of values that changed (4),
 *         then for each of them by cell: cell (4), value as {@link bufferstop.model.Type} encodes it (8)
 * </pre>
 *
 * Before the first scan every value counts as 0. A scan allocates nothing.
 */
public final class TraceDigest {
  private static final int PER_CHANGE = 12;

  private final MessageDigest digest;
  private final ByteBuffer buffer;
  private final long[] last;

  /**
   * @param symbols every value of the layout, by cell
   */
  public TraceDigest(List<Symbol> symbols, long periodMicros) {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java platform has it
    }
    last = new long[symbols.size()];
    buffer = ByteBuffer.allocate(12 + PER_CHANGE * symbols.size());
    digest.update("BSTRACE1".getBytes(StandardCharsets.US_ASCII));
    digest.update(ByteBuffer.allocate(12).putLong(periodMicros).putInt(symbols.size()).flip());
    for (Symbol symbol : symbols) {
      byte[] name = symbol.name().getBytes(StandardCharsets.UTF_8);
      ByteBuffer entry = ByteBuffer.allocate(3 + name.length);
      entry.putShort((short) name.length).put(name).put((byte) symbol.type().ordinal());
      digest.update(entry.flip());
    }
  }

  /** Takes the image after a scan. */
  public void scan(long period, long[] cells) {
    buffer.clear();
    buffer.putLong(period).putInt(0);
    int changes = 0;
    for (int i = 0; i < last.length; i++) {
      if (cells[i] != last[i]) {
        last[i] = cells[i];
        buffer.putInt(i).putLong(cells[i]);
        changes++;
      }
    }
    buffer.putInt(8, changes);
    digest.update(buffer.array(), 0, buffer.position());
  }

  /** The identity of the run so far, lower-case hex; nothing can be added after it. */
  public String sha256() {
    return HexFormat.of().formatHex(digest.digest());
  }
}
