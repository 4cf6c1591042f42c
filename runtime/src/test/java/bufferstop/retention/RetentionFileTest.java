package bufferstop.retention;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A state survives whatever happens to its file. */
class RetentionFileTest {
  @TempDir Path folder;

  private final List<String> said = new ArrayList<>();
  private RetentionFile file;

  @BeforeEach
  void open() {
    file = new RetentionFile(folder.resolve("retained"));
  }

  private static RetentionFile.State state(long number) {
    return new RetentionFile.State(
        number,
        1_700_000_000_000L + number,
        List.of(
            new RetainedValue("loads_today", "UINT", List.of(number)),
            new RetainedValue("mode", "mode(off,hand)", List.of(1L)),
            new RetainedValue("label", "STRING[9]", List.of(5L, -1L, 0x0102_0304_0506_0708L))));
  }

  @Test
  void isReadAsItWasSaved() throws IOException {
    assertNull(file.load(said));
    file.save(state(1));
    file.save(state(2));
    assertEquals(state(2), file.load(said));
    assertEquals(List.of(), said);
  }

  /** Between any two steps of a save the process may be killed. */
  @Test
  void isWholeBetweenTheStepsOfASave() throws IOException {
    file.save(state(1));
    Path path = file.path();
    byte[] first = Files.readAllBytes(path);
    file.save(state(2));
    byte[] second = Files.readAllBytes(path);
    Path fresh = folder.resolve("retained.new");
    Path old = folder.resolve("retained.old");

    Files.write(path, first);
    Files.delete(old);
    Files.write(fresh, new byte[0]);
    assertEquals(state(1), file.load(said), "the new one was only begun");
    Files.write(fresh, second);
    assertEquals(state(2), file.load(said), "written, nothing renamed");
    Files.move(path, old);
    assertEquals(state(2), file.load(said), "the one before has left its name");
    Files.move(fresh, path);
    assertEquals(state(2), file.load(said), "done");
    assertEquals(List.of(), said);
  }

  @Test
  void anyFlippedBitIsNoticedTheFileKeptAsideAndTheOneBeforeTaken() throws IOException {
    file.save(state(1));
    file.save(state(2));
    byte[] whole = Files.readAllBytes(file.path());
    for (int bit = 0; bit < whole.length * Byte.SIZE; bit++) {
      byte[] damaged = whole.clone();
      damaged[bit / Byte.SIZE] ^= (byte) (1 << bit % Byte.SIZE);
      Files.write(file.path(), damaged);
      said.clear();
      assertEquals(state(1), file.load(said), "bit " + bit);
      assertEquals(List.of(file.path() + " is damaged; it is kept as retained.damaged-1"), said);
      Path aside = folder.resolve("retained.damaged-1");
      assertArrayEquals(damaged, Files.readAllBytes(aside));
      Files.delete(aside);
    }
  }

  /** Bytes put in, taken out, exchanged or written over, several at a time. */
  @Test
  void whateverElseHappensToItIsNoticed() throws IOException {
    file.save(state(1));
    byte[] whole = Files.readAllBytes(file.path());
    for (long seed = 1; seed <= 2000; seed++) {
      Random random = new Random(seed);
      ByteArrayOutputStream damaged = new ByteArrayOutputStream();
      int from = random.nextInt(whole.length);
      int to = from + random.nextInt(whole.length - from);
      damaged.write(whole, 0, from);
      byte[] others = new byte[random.nextInt(20)];
      random.nextBytes(others);
      damaged.writeBytes(others);
      damaged.write(whole, to, whole.length - to);
      boolean same = Arrays.equals(damaged.toByteArray(), whole);
      Files.write(file.path(), damaged.toByteArray());
      assertEquals(same ? state(1) : null, file.load(said), "seed " + seed);
      Files.deleteIfExists(folder.resolve("retained.damaged-1"));
    }
  }

  @Test
  void ofAFileThatWasCutOffAnywhereTheOneBeforeIsTaken() throws IOException {
    file.save(state(1));
    byte[] whole = Files.readAllBytes(file.path());
    file.save(state(2));
    byte[] second = Files.readAllBytes(file.path());
    for (int length = 0; length < second.length; length++) {
      Files.write(file.path(), Arrays.copyOf(second, length));
      assertEquals(state(1), file.load(said), length + " bytes");
      Files.delete(folder.resolve("retained.damaged-1"));
    }
    Files.delete(folder.resolve("retained.old"));
    Files.write(file.path(), Arrays.copyOf(whole, whole.length - 1));
    assertNull(file.load(said));
  }
}
