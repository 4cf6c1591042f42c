package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.ScanTable;
import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/**
 * Functions of users. Rules: B1 of the reference, IEC 61131-3:2003, 2.5.1 [from memory, not
 * re-read]; what an error does, how inputs may be left out [project choice].
 */
class UserFunctionsTest {
  private static final String FUNCTIONS =
      """
      project: small
      scan: T#1ms
      functions:
        twice: {inputs: {x: {type: INT}}, returns: INT, body: twice := 2 * x;}
        less:
          inputs: {from: {type: INT}, less_by: {type: INT, initial: 1}}
          returns: INT
          body: less := from - less_by;
        count:
          inputs: {add: {type: INT}}
          returns: INT
          locals: {n: {type: INT, initial: 10}}
          body: |
            n := n + add;
            count := count + n;
        sum:
          inputs: {most: {type: INT}}
          returns: INT
          locals: {k: {type: INT}}
          body: |
            FOR k := 1 TO 100 DO
              IF k > most THEN RETURN; END_IF;
              IF k MOD 2 = 0 THEN CONTINUE; END_IF;
              sum := sum + k;
            END_FOR;
            sum := -1;
        share: {inputs: {x: {type: INT}}, returns: INT, body: share := 100 / x;}
        holds: {inputs: {x: {type: INT}}, returns: BOOL, body: holds := 100 / x > 0;}
        four_times: {inputs: {x: {type: INT}}, returns: INT, body: four_times := twice(twice(x));}
        started: {returns: BOOL, body: started := scan.first;}
      controller:
        operator:
          x: {type: INT}
          y: {type: INT}
        internal:
          i: {type: INT}
          j: {type: INT}
          b: {type: BOOL}
          l: {type: LREAL}
      """;

  private static SmallController logic(String... statements) {
    String logic = "  logic: |\n" + String.join("\n", statements).indent(4);
    return SmallController.ofProject(FUNCTIONS + logic);
  }

  @Test
  void keepNothingFromCallToCall() {
    ScanTable.play(
        logic("i := count(x);", "j := count(x) + count(0);"),
        """
        x 0  5  0
        i 10 15 10
        j 20 25 20
        """);
  }

  @Test
  void takeTheirOwnValueAsInput() {
    ScanTable.play(
        logic("i := twice(twice(twice(x)) + twice(y));", "j := four_times(x) - less(x, twice(x));"),
        """
        x 1  3  -2
        y 0  1  5
        i 8  28 4
        j 5  15 -10
        """);
  }

  @Test
  void takeInputsInOrderOrByName() {
    ScanTable.play(
        logic("i := less(x, y);", "j := less(less_by := y, from := x);"),
        """
        x 7 7 1
        y 2 9 1
        i 5 -2 0
        j 5 -2 0
        """);
  }

  @Test
  void giveAnInputThatIsLeftOutItsInitialValueAtEachCall() {
    ScanTable.play(
        logic("i := less(less(x, 5));", "j := less(from := x);"),
        """
        x 7 8
        i 1 2
        j 6 7
        """);
  }

  @Test
  void takeInputsByValue() {
    SmallController on = logic("i := 3;", "j := twice(i) + i;").scan();
    assertEquals(9, on.get("j"));
  }

  @Test
  void endAtReturnWithTheValueSoFar() {
    ScanTable.play(
        logic("i := sum(x);"),
        """
        x 1 4 7  100 99
        i 1 4 16 -1  2500
        """);
  }

  @Test
  void widenInputsAndValue() {
    ScanTable.play(
        logic("l := twice(USINT#4);", "b := l = 8.0;"),
        """
        b 1
        """);
  }

  @Test
  void countAnErrorInsideAndTheCallerKeepsItsTarget() {
    ScanTable.play(
        logic("i := share(x);", "j := 1 + share(4);"),
        """
        x           5  0  0  2
        i           20 20 20 50
        j           26 26 26 26
        scan.errors 0  1  2  2
        """);
  }

  @Test
  void countAnErrorInAnInputOnce() {
    ScanTable.play(
        logic("i := twice(100 / x);", "IF holds(x) THEN j := 1; ELSE j := 2; END_IF;"),
        """
        x           5  0  4
        i           40 40 50
        j           1  2  1
        scan.errors 0  2  2
        """);
  }

  @Test
  void maySeeTheScan() {
    ScanTable.play(
        logic("b := started();"),
        """
        b 1 0 0
        """);
  }

  @Test
  void maySeeConstantsUnlessOneOfTheirOwnNamesIsTheSame() {
    SmallController on =
        SmallController.ofProject(
            """
            project: small
            scan: T#1ms
            functions:
              over:
                inputs: {x: {type: INT}, most: {type: INT}}
                returns: INT
                body: over := x - least * 100 - most;
            controller:
              constants: {least: INT#2, most: INT#50}
              operator: {x: {type: INT}}
              internal: {i: {type: INT}}
              logic: i := over(x, 1);
            """);
    ScanTable.play(
        on,
        """
        x 201 300
        i 0   99
        """);
  }

  @Test
  void areCalledWhereverTheControllerHasAnExpression() {
    SmallController on =
        SmallController.ofProject(
            FUNCTIONS
                + """
                  blocks:
                    late: {block: TON, IN: twice(x) > 4, PT: T#1ms * twice(y)}
                  interlocks:
                    permit: {permissive: twice(x) < 8}
                  sequences:
                    seq:
                      steps: {A: {initial: TRUE}, B: {}}
                      transitions:
                        - {from: A, to: B, when: twice(x) = 6}
                  alarms:
                    high: {when: twice(x) > 6}
                """);
    ScanTable.play(
        on,
        """
        t                  0 1 2 3 4
        x                  1 3 3 3 4
        y                  1 1 1 1 1
        late.Q             0 0 0 1 1
        permit.ok          1 1 1 1 0
        seq.B.X            0 1 1 1 1
        alarms.high.active 0 0 0 0 1
        """);
  }
}
