package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** What reaches the field: the program, then forces, then safe values. */
class OutputsTest {
  // Source: the checks of forcing and stop; a reset never restarts anything [common practice, no
  // source].

  private static final String COPY =
      """
      inputs: {in: {type: BOOL}}
      operator: {want: {type: BOOL}, cause: {type: BOOL}, reset: {type: BOOL}}
      outputs:
        out: {type: BOOL}
        copy: {type: BOOL}
        lamp: {type: BOOL, safe: TRUE}
        opening: {type: REAL, safe: 50.0}
      interlocks:
        guard: {trip: cause, reset: reset, makes_safe: [out, opening]}
      logic: |
        copy := in;
        out := want;
        lamp := NOT want;
        opening := 80.0;
      """;

  private final SmallController on = SmallController.of(COPY);

  @Test
  void theLogicSeesAForcedInputUntilItIsFreed() {
    on.force("in", 1).scan();
    assertEquals(1, on.get("in"));
    assertEquals(1, on.get("copy"));
    on.free("in").scan();
    assertEquals(0, on.get("copy"));
  }

  @Test
  void theFieldSeesAForcedOutputAndTheProgramItsOwnValue() {
    on.set("want", 1).force("out", 0).scan();
    assertEquals(0, on.get("out"));
    assertEquals(1, on.program("out"));
    on.free("out").scan();
    assertEquals(1, on.get("out"));
  }

  @Test
  void aSafeValueBeatsAForce() {
    on.force("out", 1).scan();
    assertEquals(1, on.get("out"));
    on.set("cause", 1).scan();
    assertEquals(0, on.get("out"));
    on.rig().engine().makeSafe();
    assertEquals(0, on.get("out"));
  }

  @Test
  void outputsAreSafeBeforeTheFirstScan() {
    assertEquals(0, on.get("out"));
    assertEquals(1, on.get("lamp"));
    assertEquals(Double.doubleToLongBits(50.0), on.get("opening"));
  }

  @Test
  void outputsAreSafeAndSoPublishedWhenMadeSafe() {
    on.set("want", 1).scan();
    assertEquals(1, on.get("out"));
    assertEquals(0, on.get("lamp"));
    assertEquals(Double.doubleToLongBits(80.0), on.get("opening"));
    on.rig().engine().makeSafe();
    assertEquals(0, on.get("out"));
    assertEquals(0, on.program("out"));
    assertEquals(1, on.get("lamp"));
    assertEquals(Double.doubleToLongBits(50.0), on.get("opening"));
    long[] published = new long[1];
    int[] cell = {on.rig().layout().field().find("opening").index()};
    on.rig().snapshots().copy(cell, 0, 1, published);
    assertEquals(Double.doubleToLongBits(50.0), published[0]);
  }

  private static SmallController guarded(String program) {
    return SmallController.of(
        """
        operator:
          start: {type: BOOL}
          stop: {type: BOOL}
          cause: {type: BOOL}
          reset: {type: BOOL}
        outputs: {q: {type: BOOL}}
        interlocks:
          guard: {trip: cause, reset: reset, makes_safe: [q]}
        """
            + program);
  }

  @Test
  void aSealInDoesNotComeBackAfterTheReset() {
    play(
        guarded(
            """
            logic: |
              q := (start OR q) AND NOT stop;
            """),
        """
        start  0 1 0 0 0 0 0 0 1 0
        cause  0 0 0 1 0 0 0 0 0 0
        reset  0 0 0 0 0 0 1 0 0 0
        q      0 1 1 0 0 0 0 0 1 1
        """);
  }

  @Test
  void aMaintainedSwitchDoesNotRestartUntilItWasOffOnce() {
    play(
        guarded(
            """
            logic: |
              q := start AND NOT guard.tripped;
            """),
        """
        start  0 1 1 1 1 1 0 1
        cause  0 0 1 0 0 0 0 0
        reset  0 0 0 0 1 0 0 0
        q      0 1 0 0 0 0 0 1
        """);
  }

  private static String sequence(String qualifier) {
    return """
    sequences:
      seq:
        steps:
          A: {initial: TRUE}
          B: {do: [%s q]}
          C: {do: [R q]}
        transitions:
          - {from: A, to: B, when: start}
          - {from: B, to: C, when: stop}
          - {from: C, to: A, when: NOT stop}
    """
        .formatted(qualifier);
  }

  @Test
  void aNonStoredActionDoesNotRestartUntilItsStepWasLeft() {
    play(
        guarded(sequence("N")),
        """
        start    0 1 0 0 0 0 0 0 1
        stop     0 0 0 0 0 0 1 0 0
        cause    0 0 1 0 0 0 0 0 0
        reset    0 0 0 0 1 0 0 0 0
        seq.*.X  A B B B B B C A B
        q        0 1 0 0 0 0 0 0 1
        """);
  }

  @Test
  void aStoredActionDoesNotRestartUntilItWasReset() {
    play(
        guarded(sequence("S")),
        """
        start    0 1 0 0 0 0 0 0 1
        stop     0 0 0 0 0 0 1 0 0
        cause    0 0 1 0 0 0 0 0 0
        reset    0 0 0 0 1 0 0 0 0
        seq.*.X  A B B B B B C A B
        q        0 1 0 0 0 0 0 0 1
        """);
  }

  @Test
  void aForceDoesNotRestartWhatATripHasStoppedEither() {
    on.set("want", 1).force("out", 1).scan();
    on.set("cause", 1).scan();
    on.set("cause", 0).set("reset", 1).scan();
    assertEquals(0, on.get("guard.tripped"));
    assertEquals(0, on.get("out"));
    on.set("want", 0).scan();
    assertEquals(1, on.get("out"));
  }
}
