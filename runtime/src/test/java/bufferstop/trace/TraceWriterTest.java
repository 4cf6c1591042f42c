package bufferstop.trace;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TraceWriterTest {
  private static final long PERIOD = 10_000;

  private static final List<Symbol> SYMBOLS =
      List.of(
          symbol(0, "a", Type.BOOL, ""),
          symbol(1, "b.ü", Type.LREAL, "m"),
          symbol(2, "t", Type.TIME, ""));

  // Written by hand from the format in the Javadoc of TraceWriter [project choice].
  private static final String HEADER =
      "4253545241434532" // BSTRACE2
          + "904E" // 10 000 µs: 0x10 + 0x80, 0x4E
          + "03"
          + "0161"
          + "04424F4F4C"
          + "08696E7465726E616C"
          + "00" // a, BOOL, internal, no unit
          + "04622EC3BC"
          + "054C5245414C"
          + "08696E7465726E616C"
          + "016D" // b.ü, LREAL, m
          + "0174"
          + "0454494D45"
          + "08696E7465726E616C"
          + "00"; // t, TIME

  @TempDir Path folder;

  private static Symbol symbol(int index, String name, Type type, String unit) {
    Position here = Position.ofFile("test");
    return new Symbol(index, name, type, Symbol.Kind.INTERNAL, unit, "", here);
  }

  private static byte[] hex(String hex) {
    return HexFormat.of().parseHex(hex);
  }

  private static byte[] written(Writing writing) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (TraceWriter writer = new TraceWriter(SYMBOLS, PERIOD, bytes)) {
      writing.write(writer);
    }
    return bytes.toByteArray();
  }

  private interface Writing {
    void write(TraceWriter writer);
  }

  @Test
  void beginsWithTheLayout() {
    assertArrayEquals(hex(HEADER), written(w -> {}));
  }

  @Test
  void writesWhatChangedAndWhatHappened() {
    byte[] bytes =
        written(
            w -> {
              w.scan(0, new long[] {1, 0, -3});
              w.event("ü!");
              w.event("z");
              w.scan(3, new long[] {1, 0, 10_000 - 3});
            });
    String first = "01" + "02" + "0102" + "0205" + "00"; // cell 0: +1; cell 2: -3 is 5
    String second = "03" + "01" + "03A09C01" + "02" + "03C3BC21" + "017A"; // +10 000 is 20 000
    assertEquals(HEADER + first + second, HexFormat.of().withUpperCase().formatHex(bytes));
  }

  @Test
  void realsAreWrittenByTheBitsThatDiffer() {
    long one = Double.doubleToLongBits(1.0);
    byte[] bytes =
        written(
            w -> {
              w.scan(0, new long[] {0, one, 0});
              w.scan(1, new long[] {0, one ^ 5, 0});
            });
    // 1.0 is 3FF0 0000 0000 0000: seven times seven bits of 0, then 0x78 and 0x3F
    String first = "01" + "01" + "02" + "80808080808080F83F" + "00";
    String second = "01" + "01" + "02" + "05" + "00";
    assertEquals(HEADER + first + second, HexFormat.of().withUpperCase().formatHex(bytes));
  }

  @Test
  void theFileHoldsWhatWasDigested() throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    TraceWriter writer = new TraceWriter(SYMBOLS, PERIOD, bytes);
    writer.event("begin");
    writer.scan(0, new long[] {1, 2, 3});
    byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes.toByteArray());
    assertEquals(bytes.size(), writer.bytes());
    assertEquals(HexFormat.of().formatHex(digest), writer.sha256());
  }

  @Test
  void readsBackWhatWasWritten() throws IOException {
    long seed = Long.getLong("bufferstop.seed", 1);
    Random random = new Random(seed);
    int scans = 500;
    long[][] images = new long[scans][];
    long[] periods = new long[scans];
    String[] told = new String[scans];
    Path file = folder.resolve("t.bstrace");
    try (TraceWriter writer = new TraceWriter(SYMBOLS, PERIOD, Files.newOutputStream(file))) {
      long period = -1;
      long[] cells = new long[3];
      for (int i = 0; i < scans; i++) {
        period += 1 + (random.nextInt(10) == 0 ? random.nextInt(1000) : 0);
        cells[random.nextInt(3)] = random.nextLong() >> random.nextInt(64);
        images[i] = cells.clone();
        periods[i] = period;
        told[i] = random.nextInt(4) == 0 ? "event " + "x".repeat(random.nextInt(300)) : null;
        if (told[i] != null) {
          writer.event(told[i]);
        }
        writer.scan(period, cells);
      }
    }
    try (TraceReader reader = TraceReader.open(file)) {
      assertEquals(PERIOD, reader.periodMicros());
      assertEquals("b.ü", reader.symbols().get(1).name());
      assertEquals("m", reader.symbols().get(1).unit());
      for (int i = 0; i < scans; i++) {
        assertTrue(reader.next(), "seed " + seed + ", scan " + i);
        assertEquals(periods[i] * PERIOD, reader.nowMicros());
        assertArrayEquals(images[i], reader.cells());
        assertEquals(told[i] == null ? List.of() : List.of(told[i]), reader.events());
      }
      assertFalse(reader.next());
      assertFalse(reader.isCut());
    }
  }

  @Test
  void aFileThatWasCutIsReadUpToItsLastWholeScan() throws IOException {
    byte[] whole =
        written(
            w -> {
              w.scan(0, new long[] {1, 2, 3});
              w.scan(1, new long[] {0, 2, 9});
            });
    for (int length = HEADER.length() / 2; length < whole.length; length++) {
      Path file = Files.write(folder.resolve("cut"), Arrays.copyOf(whole, length));
      try (TraceReader reader = TraceReader.open(file)) {
        int scans = 0;
        while (reader.next()) {
          scans++;
        }
        assertTrue(scans < 2);
        assertEquals(scans == 0 ? -PERIOD : 0, reader.nowMicros());
      }
    }
  }

  @Test
  void whatIsNoTraceIsRefused() throws IOException {
    Path file = Files.writeString(folder.resolve("no"), "time_ms,x\r\n");
    assertTrue(
        assertThrows(IOException.class, () -> TraceReader.open(file))
            .getMessage()
            .startsWith("this is no trace"));
    Path cut = Files.write(folder.resolve("cut"), hex(HEADER.substring(0, 40)));
    assertEquals(
        "the header of the trace is cut off",
        assertThrows(IOException.class, () -> TraceReader.open(cut)).getMessage());
  }
}
