package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.image.WriteRequest;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What an HMI writes, seen by the scan. */
class OperatorPointsTest {
  private final SmallController on =
      SmallController.of(
          """
          operator:
            start: {type: BOOL, momentary: TRUE}
            jog: {type: BOOL, hold_to_run: T#500ms}
            lamp: {type: BOOL}
            speed: {type: INT, initial: 7}
          """);

  private List<Long> scans(int count, String point) {
    List<Long> seen = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      seen.add(on.scan().get(point));
    }
    return seen;
  }

  @Test
  void aMomentaryPointIsTrueInExactlyOneScan() {
    on.offer("start", 1);
    assertEquals(List.of(1L, 0L, 0L), scans(3, "start"));
  }

  @Test
  void aMomentaryPointWrittenTwiceIsTrueInTwoScans() {
    on.offer("start", 1);
    on.offer("start", 1);
    assertEquals(List.of(1L, 1L, 0L), scans(3, "start"));
  }

  @Test
  void aMomentaryPointSwitchedOnAndOffBeforeAScanIsTrueInOne() {
    on.offer("start", 1);
    on.offer("start", 0);
    assertEquals(List.of(1L, 0L, 0L), scans(3, "start"));
  }

  @Test
  void aPlainPointKeepsWhatWasWrittenLast() {
    on.offer("speed", 9);
    assertEquals(List.of(9L, 9L), scans(2, "speed"));
    on.offer("speed", 3);
    on.offer("speed", 4);
    assertEquals(List.of(3L, 4L, 4L), scans(3, "speed"));
  }

  @Test
  void onFollowedByOffBeforeAScanActsInAScanEach() {
    on.offer("lamp", 1);
    on.offer("lamp", 0);
    on.offer("lamp", 1);
    assertEquals(List.of(1L, 0L, 1L, 1L), scans(4, "lamp"));
  }

  @Test
  void aHeldPointFallsWhenItsTimeIsUp() {
    on.offer("jog", 1);
    assertEquals(1, on.scanAt(100).get("jog"));
    assertEquals(1, on.scanAt(599).get("jog"));
    assertEquals(0, on.scanAt(600).get("jog"));
  }

  @Test
  void aHeldPointWrittenAgainInTimeIsHeldOn() {
    on.offer("jog", 1);
    on.scanAt(100);
    on.offer("jog", 1);
    assertEquals(1, on.scanAt(600).get("jog"));
    assertEquals(1, on.scanAt(1099).get("jog"));
    assertEquals(0, on.scanAt(1100).get("jog"));
  }

  @Test
  void aHeldPointFallsAcrossSkippedScans() {
    on.offer("jog", 1);
    on.scanAt(100);
    assertEquals(0, on.scanAt(5000).get("jog"));
  }

  @Test
  void neitherAMomentaryNorAHeldPointIsTrueBeforeAnybodyWroteIt() {
    SmallController eager =
        SmallController.of(
            """
            operator:
              start: {type: BOOL, momentary: TRUE, initial: TRUE}
              jog: {type: BOOL, hold_to_run: T#500ms, initial: TRUE}
            """);
    eager.scan();
    assertEquals(0, eager.get("start"));
    assertEquals(0, eager.get("jog"));
  }

  @Test
  void aHeldPointCanBeLetGoEarly() {
    on.offer("jog", 1);
    on.offer("jog", 0);
    assertEquals(List.of(1L, 0L), scans(2, "jog"));
  }

  @Test
  void aRequestKnowsThePublicationThatShowsIt() {
    on.scan();
    WriteRequest first = on.offer("speed", 1);
    WriteRequest second = on.offer("speed", 2);
    assertEquals(-1, first.takenBy());
    on.scan();
    assertEquals(on.rig().snapshots().published(), first.takenBy());
    assertEquals(-1, second.takenBy());
    on.scan();
    assertEquals(on.rig().snapshots().published(), second.takenBy());
  }

  @Test
  void aWithdrawnRequestNeverActs() {
    WriteRequest request = on.offer("speed", 9);
    assertTrue(on.withdraw(request));
    assertEquals(List.of(7L, 7L), scans(2, "speed"));
    assertEquals(-1, request.takenBy());
  }

  @Test
  void aRequestThatAScanTookCannotBeWithdrawn() {
    WriteRequest request = on.offer("speed", 9);
    on.scan();
    assertFalse(request.withdraw());
    assertEquals(9, on.scan().get("speed"));
  }
}
