package bufferstop.retention;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.image.SnapshotRing;
import bufferstop.model.Retained;
import bufferstop.model.Retained.Cell;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Values go to the folder while a run goes on and come back with the next. */
class RetentionTest {
  private static final long OFTEN = 1000;
  private static final int CELLS = 8; // the first four are the system's

  @TempDir Path folder;

  private final List<String> told = Collections.synchronizedList(new ArrayList<>());
  private final SnapshotRing ring = new SnapshotRing(CELLS);

  private static Retained item(String name, String type, int... cells) {
    List<Cell> all = new ArrayList<>();
    for (int cell : cells) {
      all.add(new Cell(cell, false));
    }
    return new Retained(name, type, all, null);
  }

  private static RetainedCells cells(Retained... items) {
    return new RetainedCells(List.of(items));
  }

  private Retention open(Retained... items) throws IOException {
    return new Retention(folder, cells(items), () -> 7, told::add);
  }

  private void run(long[] image, Retained... items) throws IOException {
    try (Retention retention = open(items)) {
      retention.begin(ring, OFTEN);
      ring.publish(image);
    }
  }

  private long[] broughtBack(List<String> said, Retained... items) throws IOException {
    long[] image = new long[CELLS];
    try (Retention retention = open(items)) {
      cells(items).restore(image, retention.load(said).values(), said);
    }
    return image;
  }

  @Test
  void whatARunHadAtItsEndComesBack() throws IOException {
    run(
        new long[] {0, 0, 0, 0, 42, 7, -1, 9},
        item("loads", "UINT", 4),
        item("label", "STRING[9]", 5, 6, 7));
    List<String> said = new ArrayList<>();
    long[] image = broughtBack(said, item("label", "STRING[9]", 4, 5, 6), item("Loads", "UINT", 7));
    assertEquals(List.of(7L, -1L, 9L, 42L), List.of(image[4], image[5], image[6], image[7]));
    assertEquals(List.of(), said);
  }

  @Test
  void aChangeIsSavedWhileTheRunGoesOn() throws IOException {
    RetentionFile file = new RetentionFile(folder.resolve("retained"));
    try (Retention retention = open(item("loads", "UINT", 4))) {
      retention.begin(ring, OFTEN);
      for (long loads = 1; loads < 3; loads++) {
        ring.publish(new long[] {0, 0, 0, 0, loads, 0, 0, 0});
        RetainedValue expected = new RetainedValue("loads", "UINT", List.of(loads));
        await()
            .ignoreExceptions() // it may be read between two renames
            .until(() -> file.load(new ArrayList<>()).values().equals(List.of(expected)));
      }
    }
  }

  @Test
  void whatNoLongerFitsIsToldAndStartsAnew() throws IOException {
    run(
        new long[] {0, 0, 0, 0, 42, 7, 9, 1},
        item("loads", "UINT", 4),
        item("gone", "INT", 5),
        item("count", "CTU:1a", 6),
        item("pump", "duty:1a", 7));
    List<String> said = new ArrayList<>();
    long[] image =
        broughtBack(
            said, item("loads", "REAL", 4), item("count", "CTD:1a", 6), item("pump", "duty:2b", 7));
    assertEquals(List.of(0L, 0L, 0L), List.of(image[4], image[6], image[7]));
    assertEquals(
        List.of(
            "`loads` was retained, as UINT, and is REAL now: it starts anew",
            "`gone` was retained, but nothing of that name is any more",
            "`count` was retained, as CTU, and is CTD now: it starts anew",
            "`pump` was retained, and is made otherwise now (duty): it starts anew"),
        said);
  }

  /** A moment is as far from the first scan of the next run as it was from the last saved one. */
  @Test
  void momentsMoveWithTheClock() throws IOException {
    Retained timer =
        new Retained("timer", "TON:1", List.of(new Cell(4, true), new Cell(5, false)), null);
    run(new long[] {0, 0, 5_000_000, 0, 3_000_000, 77, 0, 0}, timer);
    long[] image = broughtBack(new ArrayList<>(), timer);
    assertEquals(-2_000_000, image[4]);
    assertEquals(77, image[5]);
  }

  @Test
  void theClockAloneIsSavedEveryTenSeconds() throws IOException {
    Retained timer = new Retained("timer", "TON:1", List.of(new Cell(4, true)), null);
    RetentionFile file = new RetentionFile(folder.resolve("retained"));
    try (Retention retention = open(timer)) {
      ring.publish(new long[CELLS]);
      retention.begin(ring, OFTEN);
      await().until(() -> Files.exists(file.path()));
      ring.publish(new long[] {0, 0, 9_999_999, 0, 0, 0, 0, 0});
    }
    assertEquals(1, file.load(new ArrayList<>()).number());
    run(new long[CELLS], timer); // a first save, whatever is there
    try (Retention retention = open(timer)) {
      retention.load(new ArrayList<>());
      retention.begin(ring, OFTEN);
      await().until(() -> file.load(new ArrayList<>()).number() == 2);
      ring.publish(new long[] {0, 0, 10_000_000, 0, 0, 0, 0, 0});
    }
    assertEquals(3, file.load(new ArrayList<>()).number());
  }

  /** Writing to /dev/full fails as a disk does that is full. */
  @Test
  void aFullDiskIsToldOnceAndSavingGoesOnWhenThereIsRoom() throws IOException {
    Path fresh = folder.resolve("retained.new");
    Files.createSymbolicLink(fresh, Path.of("/dev/full"));
    RetentionFile file = new RetentionFile(folder.resolve("retained"));
    try (Retention retention = open(item("loads", "UINT", 4))) {
      retention.begin(ring, OFTEN);
      for (long loads = 1; loads < 5; loads++) {
        ring.publish(new long[] {0, 0, 0, 0, loads, 0, 0, 0});
      }
      await().until(() -> told.size() == 1);
      assertTrue(told.get(0).startsWith("retained values cannot be saved: "), told.toString());
      assertTrue(told.get(0).contains("No space left on device"), told.toString());
      Files.delete(fresh);
      await().until(() -> told.size() == 2);
      assertEquals("retained values are saved again", told.get(1));
    }
    assertEquals(List.of(4L), file.load(new ArrayList<>()).values().get(0).bits());
  }

  @Test
  void aFolderServesOneRunAtATime() throws IOException {
    Retention first = open(item("loads", "UINT", 4));
    IOException refused = assertThrows(IOException.class, () -> open(item("loads", "UINT", 4)));
    assertEquals("another run keeps its values there", refused.getMessage());
    first.close();
    open(item("loads", "UINT", 4)).close();
  }
}
