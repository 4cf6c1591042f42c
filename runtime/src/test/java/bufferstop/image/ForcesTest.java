package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Which value stands. */
class ForcesTest {
  private final Forces forces = new Forces(3);

  @Test
  void aForceReplacesAValueUntilItIsCleared() {
    forces.set(1, 42);
    assertEquals(42, forces.apply(1, 7));
    assertEquals(7, forces.apply(0, 7));
    forces.set(1, 43);
    assertEquals(43, forces.apply(1, 7));
    forces.clear(1);
    assertEquals(7, forces.apply(1, 7));
  }

  @Test
  void aCellCountsOnceHoweverOftenItIsForcedOrCleared() {
    forces.set(0, 1);
    forces.set(0, 2);
    forces.set(2, 1);
    assertEquals(2, forces.count());
    forces.clear(1);
    forces.clear(0);
    forces.clear(0);
    assertEquals(1, forces.count());
  }
}
