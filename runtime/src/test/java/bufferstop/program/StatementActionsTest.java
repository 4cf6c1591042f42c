package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** When actions that are statements run, and what their Q shows. */
class StatementActionsTest {
  // Source: IEC 61131-3:2003, 2.6.4.5 rule 1 and its notes [re-read], Table 45 [re-read]; Figure 15
  // a, with final scan [from memory, not re-read]. Step X is active while x is TRUE, step Z resets
  // while r is TRUE. Each action counts how often its statements ran, so rows A of the reference
  // are given as sums.

  private static final List<String> ALL =
      List.of("n", "s", "l", "d", "p", "sd", "ds", "sl", "p1", "p0");

  private static SmallController branches() {
    StringBuilder yaml = new StringBuilder("operator: {x: {type: BOOL}, r: {type: BOOL}}\n");
    yaml.append("internal:\n");
    ALL.forEach(name -> yaml.append("  c_%s: {type: INT}\n".formatted(name)));
    yaml.append("sequences:\n  seq:\n    actions:\n");
    ALL.forEach(name -> yaml.append("      %s: c_%s := c_%s + 1;\n".formatted(name, name, name)));
    String resets = ALL.stream().map(name -> "R " + name).collect(Collectors.joining(", "));
    yaml.append(
        """
            steps:
              begin: {initial: TRUE}
              W: {}
              X:
                do:
                  - N n
                  - S s
                  - L T#300ms l
                  - D T#300ms d
                  - P p
                  - SD T#300ms sd
                  - DS T#300ms ds
                  - SL T#300ms sl
                  - P1 p1
                  - P0 p0
              Y: {}
              Z: {do: [%s]}
            transitions:
              - {from: begin, to: [W, Y], when: "TRUE"}
              - {from: W, to: X, when: x}
              - {from: X, to: W, when: NOT x}
              - {from: Y, to: Z, when: r}
              - {from: Z, to: Y, when: NOT r}
        """
            .formatted(resets));
    return SmallController.of(yaml.toString()).scan();
  }

  /** A row of a table: in which scans the statements run, as how often they have run. */
  private static String ran(String name, String scans) {
    StringBuilder row = new StringBuilder("c_" + name);
    int sum = 0;
    for (String scan : scans.strip().split("\\s+")) {
      sum += Integer.parseInt(scan);
      row.append("  ").append(sum);
    }
    return row + "\n";
  }

  @Test
  void aStepThatOutlastsTheTime() { // ACT-1
    play(
        branches(),
        """
        t        100 200 300 400 500 600 700 800 900 1000 1100
        x          0   1   1   1   1   1   1   0   0    0    0
        r          0   0   0   0   0   0   0   0   0    1    0
        seq.n.Q    0   1   1   1   1   1   1   0   0    0    0
        seq.s.Q    0   1   1   1   1   1   1   1   1    0    0
        seq.l.Q    0   1   1   1   0   0   0   0   0    0    0
        seq.d.Q    0   0   0   0   1   1   1   0   0    0    0
        seq.p.Q    0   1   0   0   0   0   0   0   0    0    0
        seq.sd.Q   0   0   0   0   1   1   1   1   1    0    0
        seq.ds.Q   0   0   0   0   1   1   1   1   1    0    0
        seq.sl.Q   0   1   1   1   0   0   0   0   0    0    0
        seq.p1.Q   0   0   0   0   0   0   0   0   0    0    0
        seq.p0.Q   0   0   0   0   0   0   0   0   0    0    0
        """
            + ran("n", "0 1 1 1 1 1 1 1 0 0 0")
            + ran("s", "0 1 1 1 1 1 1 1 1 1 0")
            + ran("l", "0 1 1 1 1 0 0 0 0 0 0")
            + ran("d", "0 0 0 0 1 1 1 1 0 0 0")
            + ran("p", "0 1 1 0 0 0 0 0 0 0 0") // and rule A9
            + ran("sd", "0 0 0 0 1 1 1 1 1 1 0")
            + ran("ds", "0 0 0 0 1 1 1 1 1 1 0")
            + ran("sl", "0 1 1 1 1 0 0 0 0 0 0")
            + ran("p1", "0 1 0 0 0 0 0 0 0 0 0")
            + ran("p0", "0 0 0 0 0 0 0 1 0 0 0"));
  }

  @Test
  void aStepShorterThanTheTime() { // ACT-2
    play(
        branches(),
        """
        t        100 200 300 400 500 600 700 800 900 1000 1100
        x          0   1   1   0   0   0   0   0   0    0    0
        r          0   0   0   0   0   0   0   0   0    1    0
        seq.n.Q    0   1   1   0   0   0   0   0   0    0    0
        seq.s.Q    0   1   1   1   1   1   1   1   1    0    0
        seq.l.Q    0   1   1   0   0   0   0   0   0    0    0
        seq.d.Q    0   0   0   0   0   0   0   0   0    0    0
        seq.p.Q    0   1   0   0   0   0   0   0   0    0    0
        seq.sd.Q   0   0   0   0   1   1   1   1   1    0    0
        seq.ds.Q   0   0   0   0   0   0   0   0   0    0    0
        seq.sl.Q   0   1   1   1   0   0   0   0   0    0    0
        """
            + ran("n", "0 1 1 1 0 0 0 0 0 0 0")
            + ran("s", "0 1 1 1 1 1 1 1 1 1 0")
            + ran("l", "0 1 1 1 0 0 0 0 0 0 0")
            + ran("d", "0 0 0 0 0 0 0 0 0 0 0")
            + ran("p", "0 1 1 0 0 0 0 0 0 0 0")
            + ran("sd", "0 0 0 0 1 1 1 1 1 1 0")
            + ran("ds", "0 0 0 0 0 0 0 0 0 0 0")
            + ran("sl", "0 1 1 1 1 0 0 0 0 0 0")
            + ran("p1", "0 1 0 0 0 0 0 0 0 0 0")
            + ran("p0", "0 0 0 1 0 0 0 0 0 0 0"));
  }

  @Test
  void aResetBeforeTheTimeHasPassed() { // ACT-3, Q; A follows from A2
    play(
        branches(),
        """
        t        100 200 300 400 500 600 700 800
        x          0   1   1   0   0   0   0   0
        r          0   0   0   1   0   0   0   0
        seq.s.Q    0   1   1   0   0   0   0   0
        seq.sd.Q   0   0   0   0   0   0   0   0
        seq.ds.Q   0   0   0   0   0   0   0   0
        seq.sl.Q   0   1   1   0   0   0   0   0
        """
            + ran("s", "0 1 1 1 0 0 0 0")
            + ran("sd", "0 0 0 0 0 0 0 0")
            + ran("ds", "0 0 0 0 0 0 0 0")
            + ran("sl", "0 1 1 1 0 0 0 0")
            + ran("p0", "0 0 0 0 0 0 0 0")); // rule A5: R wins over P0 in its scan
  }

  @Test
  void resetWinsOverStoredAndNonStoredInItsScanOnly() { // ACT-4 and ACT-5
    play(
        branches(),
        """
        t       100 200 300 400 500
        x         0   1   1   1   0
        r         0   0   1   0   0
        seq.s.Q   0   1   0   1   1
        seq.n.Q   0   1   0   1   0
        """
            + ran("s", "0 1 1 1 1")
            + ran("n", "0 1 1 1 1"));
  }

  @Test
  void theStatementsSeeTheirOwnFlagAndClearInTheFinalScanWhatTheySet() { // A2, A4
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            outputs: {pump: {type: BOOL}}
            internal: {kept: {type: BOOL}}
            sequences:
              seq:
                actions:
                  pump_logic: |
                    pump := seq.pump_logic.Q;
                    IF seq.pump_logic.Q THEN kept := TRUE; END_IF;
                steps: {A: {initial: TRUE}, B: {do: pump_logic}}
                transitions:
                  - {from: A, to: B, when: go}
                  - {from: B, to: A, when: NOT go}
            """);
    play(
        chart,
        """
        go    0 1 1 0 0
        pump  0 1 1 0 0
        kept  0 1 1 1 1
        """);
  }

  @Test
  void theStepActiveAtTheStartRunsNoPulseAndNothingRunsForTheOthers() { // rule A10
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            internal: {n: {type: INT}, p: {type: INT}}
            sequences:
              seq:
                actions:
                  count: n := n + 1;
                  pulse: p := p + 1;
                steps: {A: {initial: TRUE, do: [P1 pulse]}, B: {do: [N count, P0 pulse]}}
                transitions:
                  - {from: A, to: B, when: go}
                  - {from: B, to: A, when: NOT go}
            """);
    play(
        chart,
        """
        go  0 0 0
        n   0 0 0
        p   0 0 0
        """);
  }

  @Test
  void aStepThatLeadsToItselfRunsItsPulsesAndGoesOnWithoutAFinalScan() { // rule S5
    SmallController chart =
        SmallController.of(
            """
            operator: {again: {type: BOOL}, go: {type: BOOL}}
            internal: {ended: {type: INT}, begun: {type: INT}, final_scans: {type: INT}}
            sequences:
              seq:
                actions:
                  begin: begun := begun + 1;
                  end: ended := ended + 1;
                  work: IF NOT seq.work.Q THEN final_scans := final_scans + 1; END_IF;
                steps: {A: {initial: TRUE, do: [P1 begin, P0 end, N work]}, B: {final: TRUE}}
                transitions:
                  - {from: A, to: A, when: again}
                  - {from: A, to: B, when: go}
            """);
    play(
        chart,
        """
        again        0 1 1 0 0
        go           0 0 0 0 1
        begun        0 1 2 2 2
        ended        0 1 2 2 3
        final_scans  0 0 0 0 1
        """);
  }

  @Test
  void oneThatEndsAndOneThatBeginsRunInTheOrderDeclared() { // rule A7 [project choice]
    SmallController chart =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            internal: {trail: {type: INT}}
            sequences:
              seq:
                actions:
                  enter: trail := trail * 10 + 1;
                  leave: trail := trail * 10 + 2;
                steps:
                  A: {initial: TRUE, do: [P0 leave]}
                  B: {do: [P1 enter]}
                transitions: [{from: A, to: B, when: go}, {from: B, to: A, when: NOT go}]
            """);
    play(
        chart,
        """
        go     0  1
        trail  0 12
        """);
  }

  @Test
  void whatTheyWriteHasNoOtherWriter() {
    assertEquals(
        List.of("`q` has two writers", "`q` has two writers", "`q` has two writers"),
        SmallController.problemsOf(
            """
            outputs: {q: {type: BOOL}}
            sequences:
              seq:
                actions: {act: "q := TRUE;", more: "q := FALSE;"}
                steps: {A: {initial: TRUE, do: [N q, N act, N more]}}
                transitions: []
              other:
                actions: {act: "q := TRUE;"}
                steps: {A: {initial: TRUE, do: [N act]}}
                transitions: []
            logic: q := TRUE;
            """));
  }

  @Test
  void aNameIsAnActionOrAPointAndOneActionOrStep() {
    assertEquals(
        List.of(
            "`q` is an action and a name besides",
            "`seq.A` is declared twice",
            "`P1` is for actions that are statements",
            "no point named `qq`"),
        SmallController.problemsOf(
            """
            outputs: {lamp: {type: BOOL}, q: {type: BOOL}}
            sequences:
              seq:
                actions: {q: "lamp := TRUE;", A: "lamp := FALSE;"}
                steps:
                  A:
                    initial: TRUE
                    do:
                      - P1 lamp
                      - N qq
                transitions: []
            """));
  }
}
