package bufferstop.engine;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** The order of a scan, as a small project shows it. */
class ScanOrderTest {

  @Test
  void eachPartSeesThisScansValuesOfThePartsBeforeItAndTheLastScansOfThoseAfter() {
    SmallController on =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            outputs: {q: {type: BOOL}}
            internal: {step_seen: {type: BOOL}, action_seen: {type: BOOL}}
            blocks:
              edge: {block: R_TRIG, CLK: go}
              late_edge: {block: R_TRIG, CLK: seq.B.X}
            interlocks:
              permit: {permissive: edge.Q}
              watch: {trip: seq.B.X, reset: "FALSE"}
            sequences:
              seq:
                steps: {A: {initial: TRUE}, B: {do: [N q]}}
                transitions: [{from: A, to: B, when: permit.ok}]
            logic: |
              step_seen := seq.B.X;
              action_seen := q;
            alarms:
              a: {when: q}
            """);
    play(
        on,
        """
        go               0 1 1
        edge.Q           0 1 0
        permit.ok        0 1 0
        seq.*.X          A B B
        step_seen        0 1 1
        action_seen      0 0 1
        q                0 1 1
        alarms.a.active  0 1 1
        late_edge.Q      0 0 1
        watch.tripped    0 0 1
        """);
  }

  @Test
  void blocksRunInTheOrderWritten() {
    SmallController on =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            blocks:
              early: {block: SR, S1: source.Q, R: "FALSE"}
              source: {block: R_TRIG, CLK: go}
              late: {block: SR, S1: source.Q, R: "FALSE"}
            """);
    play(
        on,
        """
        go        0 1 0
        source.Q  0 1 0
        early.Q1  0 0 1
        late.Q1   0 1 1
        """);
  }

  private static SmallController button() {
    return SmallController.ofProject(
        """
        project: button
        scan: T#10ms
        controller:
          inputs: {in: {type: BOOL}}
        panel: {b: {element: push_button}}
        wiring: [{from: panel.b, to: in}]
        """);
  }

  @Test
  void anInputThatChangesAndChangesBackBetweenScansIsNotSeen() {
    SmallController on = button().scan();
    on.set("panel.b", 1).set("panel.b", 0).scan();
    assertEquals(0, on.get("in"));
    assertEquals(0, on.scan().get("in"));
  }

  @Test
  void anInputIsSeenInTheScanAfterTheWireDeliveredIt() {
    SmallController on = button().scan();
    assertEquals(0, on.set("panel.b", 1).scan().get("in"));
    assertEquals(1, on.scan().get("in"));
    assertEquals(1, on.set("panel.b", 0).scan().get("in"));
    assertEquals(0, on.scan().get("in"));
  }

  @Test
  void firstIsTrueInTheFirstScanOnlyAndTimeAndCountGoOn() {
    play(
        SmallController.of("operator: {any: {type: BOOL}}\n"),
        """
        t           0 1 2 40
        scan.first  1 0 0  0
        scan.count  0 1 2  3
        scan.time   0 1 2 40
        """);
  }

  @Test
  void operatorAndInternalPointsStartAtTheirInitialValues() {
    SmallController on =
        SmallController.of(
            """
            operator: {fill_time: {type: TIME, initial: T#8s}}
            internal: {n: {type: INT, initial: 5}, m: {type: INT}, b: {type: BOOL}}
            """);
    assertEquals(8000, on.get("fill_time"));
    assertEquals(5, on.get("n"));
    assertEquals(0, on.get("m"));
    assertEquals(0, on.get("b"));
  }
}
