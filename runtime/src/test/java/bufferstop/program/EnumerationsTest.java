package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import bufferstop.model.Point;
import bufferstop.model.Symbol;
import bufferstop.model.Values;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Enumerations. Source: IEC 61131-3:2003, 2.3.3.1, Table 14 [from memory, not re-read]. */
class EnumerationsTest {
  private static final String TYPES =
      """
      types:
        mode: [off, hand, automatic]
        gate: [closed, open, hand]
      operator:
        wanted: {type: mode, initial: hand}
        b: {type: BOOL}
      outputs:
        flap: {type: gate, safe: open}
      internal:
        now: {type: mode}
        before: {type: mode, initial: mode#automatic}
        g: {type: gate}
        hits: {type: INT}
        open: {type: BOOL}
        n: {type: INT}
        list: {type: "ARRAY[0..2] OF mode", initial: [hand, off, automatic]}
      """;

  @Test
  void areAssignedComparedAndChosenByName() {
    SmallController on =
        SmallController.of(
            TYPES
                + """
                logic: |
                  now := wanted;
                  IF now = hand AND mode#hand = now AND now <> off THEN hits := 1; END_IF;
                  CASE now OF
                    off: g := closed;
                    mode#hand: g := open;
                    automatic: g := hand;
                  END_CASE;
                  open := g = open;
                  before := SEL(b, off, list[now_index]);
                  flap := g;
                """
                    .replace("now_index", "n"));
    on.set("b", 1).set("n", 2).scan();
    assertEquals(1, on.get("now"));
    assertEquals(1, on.get("hits"));
    assertEquals(1, on.get("g"));
    assertEquals(1, on.get("open"));
    assertEquals(2, on.get("before"));
    assertEquals(1, on.get("flap"));
    on.set("wanted", 2).set("b", 0).scan();
    assertEquals(2, on.get("g"));
    assertEquals(0, on.get("before"));
  }

  @Test
  void startAndPrintByName() {
    SmallController on = SmallController.of(TYPES);
    Symbol wanted = on.rig().layout().field().find("wanted");
    assertEquals("mode", wanted.typeName());
    assertEquals("hand", Values.print(wanted.type(), wanted.enumeration(), on.get("wanted")));
    assertEquals("automatic", wanted.enumeration().print(on.get("before")));
    assertEquals("7", wanted.enumeration().print(7));
    assertEquals(2, on.get("list[2]"));
  }

  @Test
  void refuseAWriteOfANumberWithoutAName() {
    SmallController on = SmallController.of(TYPES);
    Point wanted = on.rig().project().controller().points().get(1);
    assertEquals("wanted", wanted.name());
    assertTrue(wanted.admits(2));
    assertFalse(wanted.admits(3));
    assertFalse(wanted.admits(-1));
  }

  @Test
  void mixWithNothing() {
    assertEquals(
        List.of(
            "`1` is INT",
            "`g` is gate",
            "`now = g` compares mode with gate",
            "`now < off` compares mode with mode",
            "`now + 1` adds mode and INT",
            "`mode` has no value `hnad`",
            "`MODUS` is no type of literals",
            "`hand` is a value of several types",
            "`hand` is a value of several types",
            "`now` is mode",
            "`closed` is gate",
            "`SEL(b, now, g)` mixes mode and gate"),
        SmallController.problemsOf(
            TYPES
                + """
                logic: |
                  now := 1;
                  now := g;
                  IF now = g THEN ; END_IF;
                  IF now < off THEN ; END_IF;
                  n := now + 1;
                  now := mode#hnad;
                  now := modus#hand;
                  IF hand = hand THEN ; END_IF;
                  n := now;
                  CASE now OF closed: ; END_CASE;
                  now := SEL(b, now, g);
                """));
  }

  @Test
  void areDeclaredOnceWithNamesOnce() {
    assertEquals(
        List.of(
            "`a` has no list of values",
            "`b` has `ON` twice",
            "`C` is declared twice",
            "`t` cannot name a type: `T#` begins a TIME",
            "`true` is a reserved word"),
        SmallController.problemsOf(
            """
            types:
              a: []
              c: [left, right]
              b: [on, ON]
              C: [x]
              t: [y]
              d: [true]
            """
                .replace("  C:", "  C:")));
  }
}
