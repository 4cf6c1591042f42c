package bufferstop.program;

import bufferstop.engine.ScanTable;
import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/**
 * Calls of blocks as statements of the logic. Rules: B2 and B3 of the reference; the form of a call
 * IEC 61131-3:2003, 2.5.2 and 3.3.2.2 [from memory, not re-read].
 */
class BlockCallsTest {
  private static final String POINTS =
      """
      operator:
        go: {type: BOOL}
        call: {type: BOOL}
        n: {type: INT}
      internal:
        done: {type: BOOL}
        i: {type: INT}
        d: {type: DINT}
        k: {type: INT}
      blocks:
        t1: {block: TON}
        c1: {block: CTU}
      """;

  private static SmallController logic(String... statements) {
    return SmallController.of(POINTS + "logic: |\n" + String.join("\n", statements).indent(2));
  }

  private static final String COUNT = "c1(CU := go, PV := n);";

  @Test
  void runABlockWhereItIsWritten() {
    ScanTable.play(
        logic("i := c1.CV;", "t1(IN := go, PT := T#200ms, Q => done);", COUNT, "d := c1.CV - i;"),
        """
        go   0 1 1 1 0 1
        n    9 9 9 9 9 9
        done 0 0 0 1 0 0
        t1.Q 0 0 0 1 0 0
        i    0 0 1 1 1 1
        d    0 1 0 0 0 1
        """);
  }

  /** B2: a timer works from time stamps; not called, it does not change. */
  @Test
  void aBlockNotCalledDoesNotChange() {
    ScanTable.play(
        logic("IF call THEN t1(IN := go, PT := T#200ms); END_IF;", COUNT),
        """
        t     0 100 200 300 400
        go    1 1   1   1   0
        call  1 1   0   1   0
        t1.Q  0 0   0   1   1
        t1.ET 0 100 100 200 200
        """);
  }

  /** B3: PT given once is kept, as is IN. */
  @Test
  void anInputLeftOutKeepsItsValue() {
    ScanTable.play(
        logic("IF call THEN t1(IN := go, PT := T#200ms); ELSE t1(); END_IF;", COUNT),
        """
        go    1 0   0   0   0
        call  1 0   0   0   1
        t1.Q  0 0   1   1   0
        t1.ET 0 100 200 200 0
        """);
  }

  @Test
  void aBlockMayBeCalledSeveralTimesInAScan() {
    ScanTable.play(
        logic(
            "t1(IN := go, PT := T#1s);",
            "FOR k := 1 TO 3 DO",
            "  c1(CU := TRUE, PV := n, CV => d);",
            "  c1(CU := FALSE);",
            "END_FOR;"),
        """
        n    5 5 5
        c1.Q 0 1 1
        d    3 6 9
        """);
  }

  @Test
  void anOutputWidensToItsTarget() {
    ScanTable.play(
        logic("t1(IN := go, PT := T#1s);", "c1(CU := go, R := call, PV := n, CV => d, Q => done);"),
        """
        go   1 0 1 0
        call 0 0 0 1
        n    2 2 2 2
        d    1 1 2 0
        done 0 0 1 0
        """);
  }

  @Test
  void anInputInErrorKeepsItsValue() {
    ScanTable.play(
        logic("t1(IN := go, PT := T#1s);", "c1(CU := go, PV := 10 / n);"),
        """
        go          1 0 1
        n           5 0 0
        c1.Q        0 0 1
        scan.errors 0 1 2
        """);
  }

  /** A block that needs nothing and is not called by the logic runs with the other blocks. */
  @Test
  void aBlockWithoutRequiredInputsNeedsNoCall() {
    SmallController on =
        SmallController.ofProject(
            """
            project: small
            scan: T#1ms
            function_blocks:
              ticks:
                inputs: {step: {type: INT, initial: 2}}
                outputs: {n: {type: INT}}
                body: n := n + step;
            controller:
              operator: {go: {type: BOOL}}
              blocks:
                a: {block: ticks}
                b: {block: ticks}
              logic: |
                IF go THEN b(step := 5); END_IF;
            """);
    ScanTable.play(
        on,
        """
        go  0 1 1 0
        a.n 2 4 6 8
        b.n 0 5 10 10
        """);
  }
}
