package bufferstop.retention;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Type;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
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
            new RetainedValue("loads_today", Type.UINT, number),
            new RetainedValue("count#last", Type.BOOL, 1),
            new RetainedValue("level", Type.LREAL, Double.doubleToRawLongBits(-0.5))));
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
  void aDamagedFileIsKeptAsideAndTheOneBeforeIsTaken() throws IOException {
    file.save(state(1));
    file.save(state(2));
    Random random = new Random(5);
    for (int round = 1; round <= 50; round++) {
      byte[] whole = Files.readAllBytes(file.path());
      byte[] damaged = whole.clone();
      int at = random.nextInt(damaged.length);
      damaged[at] ^= (byte) (1 << random.nextInt(7));
      Files.write(file.path(), damaged);
      assertEquals(state(1), file.load(said), new String(damaged, StandardCharsets.UTF_8));
      assertEquals(round, said.size());
      assertTrue(said.get(round - 1).endsWith("retained.damaged-" + round), said.toString());
      Files.write(file.path(), whole);
    }
  }

  @Test
  void aFileThatWasCutOffAnywhereIsNotTaken() throws IOException {
    file.save(state(1));
    byte[] whole = Files.readAllBytes(file.path());
    for (int length = 0; length < whole.length; length++) {
      Files.write(file.path(), java.util.Arrays.copyOf(whole, length));
      assertNull(file.load(said), length + " bytes");
    }
  }
}
