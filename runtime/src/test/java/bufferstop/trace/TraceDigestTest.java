package bufferstop.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

class TraceDigestTest {
  private static final long PERIOD = 10_000;

  private static final List<Symbol> SYMBOLS =
      List.of(symbol(0, "a", Type.BOOL), symbol(1, "b.ü", Type.LREAL), symbol(2, "t", Type.TIME));

  // Written by hand from the format in the Javadoc of TraceDigest [project choice].
  private static final String HEADER =
      "4253545241434531" // BSTRACE1
          + "0000000000002710" // 10 000 µs
          + "00000003"
          + "0001"
          + "61"
          + "00" // a, BOOL is type 0
          + "0004"
          + "622EC3BC"
          + "0A" // b.ü in UTF-8, LREAL is type 10
          + "0001"
          + "74"
          + "0B"; // t, TIME is type 11

  private static Symbol symbol(int index, String name, Type type) {
    Position here = Position.ofFile("test");
    return new Symbol(index, name, type, Symbol.Kind.INTERNAL, "", "", here);
  }

  private static String sha256(String hex) {
    try {
      byte[] bytes = HexFormat.of().parseHex(hex);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private static long real(double value) {
    return Double.doubleToLongBits(value);
  }

  @Test
  void beginsWithTheLayout() {
    assertEquals(sha256(HEADER), new TraceDigest(SYMBOLS, PERIOD).sha256());
  }

  @Test
  void takesWhatChangedInEachScan() {
    TraceDigest digest = new TraceDigest(SYMBOLS, PERIOD);
    long[] cells = {1, real(0.5), 0};
    digest.scan(0, cells);
    digest.scan(1, cells);
    cells[2] = -1;
    digest.scan(2, cells);
    cells[0] = 0;
    cells[1] = real(-2);
    digest.scan(5, cells); // two periods without a scan
    String scans =
        "0000000000000000"
            + "00000002"
            + "00000000"
            + "0000000000000001"
            + "00000001"
            + "3FE0000000000000"
            + "0000000000000001"
            + "00000000"
            + "0000000000000002"
            + "00000001"
            + "00000002"
            + "FFFFFFFFFFFFFFFF"
            + "0000000000000005"
            + "00000002"
            + "00000000"
            + "0000000000000000"
            + "00000001"
            + "C000000000000000";
    assertEquals(sha256(HEADER + scans), digest.sha256());
  }

  @Test
  void toldApartByPeriodNameTypeAndMoment() {
    String plain = new TraceDigest(SYMBOLS, PERIOD).sha256();
    assertNotEquals(plain, new TraceDigest(SYMBOLS, PERIOD + 1).sha256());
    assertNotEquals(plain, new TraceDigest(SYMBOLS.subList(0, 2), PERIOD).sha256());
    List<Symbol> lint = List.of(SYMBOLS.get(0), SYMBOLS.get(1), symbol(2, "t", Type.LINT));
    assertNotEquals(plain, new TraceDigest(lint, PERIOD).sha256());
    assertNotEquals(oneChange(3), oneChange(4));
  }

  private static String oneChange(long period) {
    TraceDigest digest = new TraceDigest(SYMBOLS, PERIOD);
    digest.scan(period, new long[] {1, 0, 0});
    return digest.sha256();
  }
}
