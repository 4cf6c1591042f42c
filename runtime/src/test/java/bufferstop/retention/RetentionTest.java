package bufferstop.retention;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.image.SnapshotRing;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Values go to the file while a run goes on and come back with the next. */
class RetentionTest {
  @TempDir Path folder;

  private final List<String> said = new ArrayList<>();
  private final SnapshotRing ring = new SnapshotRing(4);

  private static Symbol symbol(int index, String name, Type type) {
    return new Symbol(index, name, type, Symbol.Kind.INTERNAL, "", "", null);
  }

  private Retention retention(Symbol... kept) {
    return new Retention(new RetentionFile(folder.resolve("kept")), List.of(kept), () -> 0);
  }

  private void run(long[] cells, Symbol... kept) {
    try (Retention retention = retention(kept)) {
      retention.begin(ring, 1000);
      ring.publish(cells);
    }
  }

  @Test
  void whatARunHadAtItsEndComesBack() throws IOException {
    run(new long[] {0, 42, 7, -1}, symbol(1, "loads", Type.UINT), symbol(3, "position", Type.DINT));
    long[] image = new long[4];
    int taken =
        retention(symbol(2, "loads", Type.UINT), symbol(0, "position", Type.DINT))
            .restore(image, said);
    assertEquals(2, taken);
    assertEquals(42, image[2]);
    assertEquals(-1, image[0]);
    assertEquals(List.of(), said);
  }

  @Test
  void aChangeIsSavedWhileTheRunGoesOn() {
    Symbol loads = symbol(1, "loads", Type.UINT);
    try (Retention retention = retention(loads)) {
      retention.begin(ring, 1000);
      ring.publish(new long[] {0, 1, 0, 0});
      ring.publish(new long[] {0, 2, 0, 0});
      await()
          .untilAsserted(
              () -> {
                long[] image = new long[4];
                retention(loads).restore(image, said);
                assertEquals(2, image[1]);
              });
    }
  }

  @Test
  void whatNoLongerFitsIsToldAndStartsAnew() throws IOException {
    run(new long[] {0, 42, 7, 9}, symbol(1, "loads", Type.UINT), symbol(2, "gone", Type.INT));
    long[] image = new long[4];
    assertEquals(0, retention(symbol(1, "loads", Type.REAL)).restore(image, said));
    assertEquals(0, image[1]);
    assertEquals(
        List.of(
            "`loads` was kept as UINT and is REAL now: it starts anew",
            "`gone` was kept, but nothing of that name is kept any more"),
        said);
  }
}
