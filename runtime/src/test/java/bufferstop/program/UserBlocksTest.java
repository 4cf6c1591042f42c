package bufferstop.program;

import bufferstop.engine.ScanTable;
import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/**
 * Function blocks of users. Rules: B1 to B3 of the reference, IEC 61131-3:2003, 2.5.2 [from memory,
 * not re-read].
 */
class UserBlocksTest {
  private static final String BLOCKS =
      """
      project: small
      scan: T#1ms
      function_blocks:
        adder:
          inputs: {add: {type: INT}, times: {type: INT, initial: 1}}
          outputs: {total: {type: INT}, big: {type: BOOL}}
          state: {calls: {type: INT, initial: 100}}
          body: |
            calls := calls + 1;
            total := total + add * times;
            big := total > 9 OR calls = 103;
        held:
          inputs: {run: {type: BOOL}, step: {type: INT}}
          outputs: {done: {type: BOOL}, sum: {type: INT}, gone: {type: TIME}}
          state:
            late: {block: TON}
            a: {block: adder}
            b: {block: adder}
          body: |
            late(IN := run, PT := T#200ms, Q => done);
            IF run THEN a(add := step); END_IF;
            IF late.Q THEN b(add := 10, times := step); END_IF;
            gone := late.ET;
            sum := a.total + b.total;
        outer:
          inputs: {go: {type: BOOL}}
          outputs: {sum: {type: INT}}
          state: {x: {block: held}, y: {block: HELD}}
          body: |
            x(run := go, step := 1);
            y(run := x.done, step := 100);
            sum := x.sum + y.sum;
        stop_at:
          inputs: {most: {type: INT}}
          outputs: {n: {type: INT}, over: {type: BOOL}}
          body: |
            over := FALSE;
            IF n >= most THEN
              over := TRUE;
              RETURN;
            END_IF;
            n := n + 1;
        divide:
          inputs: {step: {type: INT}}
          outputs: {value: {type: INT, initial: 7}}
          state: {t: {block: adder}}
          body: |
            t(add := 12 / step);
            value := t.total / step;
      controller:
        operator:
          x: {type: INT}
          y: {type: INT}
          go: {type: BOOL}
        internal:
          i: {type: INT}
      """;

  private static SmallController blocks(String... lines) {
    return SmallController.ofProject(BLOCKS + "  blocks:\n" + String.join("\n", lines).indent(4));
  }

  @Test
  void keepOutputsAndStateFromCallToCall() {
    ScanTable.play(
        blocks("a: {block: adder, add: x}"),
        """
        x       1 2 0 3 4
        a.total 1 3 3 6 10
        a.big   0 0 1 0 1
        """);
  }

  @Test
  void instancesShareNothing() {
    ScanTable.play(
        blocks("a: {block: adder, add: x}", "b: {block: ADDER, Add: y, TIMES: a.total}"),
        """
        x       1 2 0  3
        y       1 1 10 0
        a.total 1 3 3  6
        b.total 1 4 34 34
        """);
  }

  @Test
  void holdBlocksThatAreCalledOrNot() {
    ScanTable.play(
        blocks("h: {block: held, run: go, step: x}"),
        """
        t      0 100 200 300 400 500
        go     1 1   1   1   0   1
        x      1 2   3   4   5   6
        h.done 0 0   1   1   0   0
        h.sum  1 3   36  80  80  86
        h.gone 0 100 200 200 0   0
        """);
  }

  @Test
  void holdEachOtherToAnyDepth() {
    ScanTable.play(
        blocks("o: {block: outer, go: go}"),
        """
        t     0 100 200 300  400
        go    1 1   1   1    1
        o.sum 1 2   113 224  1335
        """);
  }

  @Test
  void endAtReturn() {
    ScanTable.play(
        blocks("s: {block: stop_at, most: x}"),
        """
        x      2 2 2 2 3
        s.n    1 2 2 2 3
        s.over 0 0 1 1 0
        """);
  }

  /** B3: an input that is not given anew keeps the value of the last call. */
  @Test
  void anInputInErrorKeepsItsValueAndTheBodyRuns() {
    ScanTable.play(
        blocks("d: {block: divide, step: x}", "a: {block: adder, add: 12 / x}"),
        """
        x           3 0  4
        a.total     4 8  11
        d.value     1 1  2
        scan.errors 0 3  3
        """);
  }

  @Test
  void outputsBeginAsDeclared() {
    ScanTable.play(
        blocks("d: {block: divide, step: x}"),
        """
        x       0 6
        d.value 7 0
        """);
  }
}
