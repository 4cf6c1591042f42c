package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import bufferstop.model.Controller;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Named constants. */
class ConstantsTest {

  @Test
  void standWhereverALiteralMay() {
    SmallController on =
        SmallController.of(
            """
            constants:
              max_fill: T#30s
              half_fill: max_fill / 2
              top: {type: REAL, value: 80.5}
              most: {type: INT, value: 3}
              next: most + 1
              bits: WORD#16#F0
              ready: "TRUE"
            operator:
              level: {type: REAL, range: [0.0, top], initial: top}
              n: {type: INT, initial: most}
              go: {type: BOOL}
            internal:
              x: {type: INT}
              half: {type: TIME, initial: half_fill}
              list: {type: "ARRAY[1..next] OF INT", initial: most}
              m: {type: WORD}
            sequences:
              fill:
                steps:
                  idle: {initial: TRUE}
                  run: {within: half_fill, at_least: half_fill / 3}
                transitions:
                  - {from: idle, to: run, when: go AND ready}
            alarms:
              late: {when: n > most, on_delay: max_fill}
            logic: |
              CASE n OF
                most: x := next * 10;
                next: x := 2;
              END_CASE;
              m := bits;
            """);
    on.scan();
    assertEquals(40, on.get("x"));
    assertEquals(15_000, on.get("half"));
    assertEquals(3, on.get("list[4]"));
    assertEquals(0xF0, on.get("m"));
    assertEquals(Double.doubleToLongBits(80.5f), on.get("level"));
    Controller controller = on.rig().project().controller();
    assertEquals(15_000_000, controller.sequences().get(0).steps().get(1).withinMicros());
    assertEquals(5_000_000, controller.sequences().get(0).steps().get(1).atLeastMicros());
    assertEquals(30_000_000, controller.alarms().get(0).onDelayMicros());
    on.set("n", 4).scan();
    assertEquals(2, on.get("x"));
  }

  @Test
  void sayWhatIsWrongWithThem() {
    assertEquals(
        List.of(
            "the type of `5` is not clear",
            "no constant named `later`",
            "`40000` is outside INT",
            "`c` is declared twice",
            "no constant named `nix`",
            "`b` cannot be assigned: it is a constant"),
        SmallController.problemsOf(
            """
            constants:
              a: 5
              b: {type: INT, value: 7}
              c: {type: INT, value: later}
              later: {type: INT, value: 40000}
              C: {type: INT, value: 1}
            internal:
              c: {type: INT}
              x: {type: INT, initial: nix}
            logic: |
              b := 3;
              x := a + 1;
            """));
  }
}
