package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.List;
import org.junit.jupiter.api.Test;

/** One-dimensional arrays. Source: IEC 61131-3:2003, 2.3.3, Table 14 [from memory, not re-read]. */
class ArraysTest {
  private static final String POINTS =
      """
      constants:
        last: {type: INT, value: 4}
      operator:
        i: {type: INT}
        set: {type: "ARRAY[1..3] OF INT", initial: [10, 20, 30], range: [0, 100]}
      internal:
        a: {type: "ARRAY[-1..last] OF INT", initial: [1, 2, 3, 4, 5, 6]}
        c: {type: "ARRAY[10..15] OF INT", initial: 7}
        r: {type: "array [1..2] of REAL", initial: [0.5, 1.5]}
        u: {type: ULINT}
        sum: {type: DINT}
        k: {type: SINT}
        x: {type: INT, initial: 99}
        b: {type: BOOL}
      """;

  private static SmallController logic(String logic) {
    return SmallController.of(POINTS + "logic: |\n" + logic.indent(2));
  }

  @Test
  void readAndAssignTheirElements() {
    SmallController on =
        logic(
            """
            x := a[i] + set[2];
            a[i + 1] := x;
            a[last] := a[-1];
            a[a[-1]] := 42;
            """);
    on.set("i", 2).scan();
    assertEquals(24, on.get("x"));
    assertEquals(24, on.get("a[3]"));
    assertEquals(1, on.get("a[4]"));
    assertEquals(42, on.get("a[1]"));
    assertEquals(0, on.get("scan.errors"));
  }

  // Source: an index outside its bounds gives 0 and assigns nothing [project choice].
  @Test
  void countAnIndexOutside() {
    SmallController on = logic("x := a[i];\na[i] := 5;\nb := a[i] = 0;\nc[i + 10] := a[0];");
    on.set("i", 5).scan();
    assertEquals(99, on.get("x"));
    assertEquals(3, on.get("scan.errors"));
    assertEquals(0, on.get("b"));
    assertEquals(2, on.get("c[15]"));
    on.set("i", -2).scan();
    assertEquals(7, on.get("scan.errors"));
    assertEquals(6, on.get("a[4]"));
  }

  @Test
  void areRunOverByFor() {
    SmallController on =
        logic("sum := 0;\nFOR k := -1 TO 4 DO sum := sum + a[k]; a[k] := 0; END_FOR;");
    on.scan();
    assertEquals(21, on.get("sum"));
    on.scan();
    assertEquals(0, on.get("sum"));
  }

  @Test
  void areAssignedAsAWhole() {
    SmallController on = logic("a := c;\nc[12] := 1;");
    on.scan();
    assertEquals(7, on.get("a[-1]"));
    assertEquals(7, on.get("a[1]"));
    on.scan();
    assertEquals(1, on.get("a[1]"));
  }

  @Test
  void areDeclaredElementByElement() {
    SmallController on = SmallController.of(POINTS);
    assertEquals(
        List.of("set[1]", "set[2]", "set[3]"),
        on.rig().project().controller().points().stream()
            .map(p -> p.name())
            .filter(n -> n.startsWith("set"))
            .toList());
    int first = on.rig().layout().field().find("a[-1]").index();
    assertEquals(first + 5, on.rig().layout().field().find("a[4]").index());
    assertEquals(Double.doubleToLongBits(1.5), on.get("r[2]"));
    assertEquals(30, on.get("set[3]"));
  }

  @Test
  void areCheckedWhenTheyAreRead() {
    assertEquals(
        List.of(
            "`a[5]` is outside `a`",
            "`set` cannot be assigned: an operator point is written by the HMI alone",
            "`a` is an array",
            "`x` is INT, no array",
            "`u` is ULINT",
            "`b` is BOOL",
            "`x` is no array",
            "`set` is ARRAY[1..3] OF INT",
            "no array named `aa`",
            "`1.5` is LREAL",
            "`]` is missing before `:=`"),
        SmallController.problemsOf(
            POINTS
                + """
                logic: |
                  x := a[5];
                  set[1] := 3;
                  x := a + 1;
                  x := x[1];
                  x := a[u];
                  x := a[b];
                  a := x;
                  a := set;
                  x := aa[1];
                  a[1] := 1.5;
                  a[1 := 3;
                """));
  }

  @Test
  void areDeclaredWithBoundsThatHoldSomething() {
    assertEquals(
        List.of(
            "the bounds 3..1 hold nothing",
            "an array of arrays",
            "`d` has 3 elements, `initial` gives 2",
            "`ARRAY[3] OF INT` is not how an array is declared",
            "no type named `FLOAT`",
            "`e[2]` starts at 200, outside its range",
            "inputs and outputs are no arrays"),
        SmallController.problemsOf(
            """
            internal:
              a: {type: "ARRAY[3..1] OF INT"}
              c: {type: "ARRAY[1..2] OF ARRAY[1..2] OF INT"}
              d: {type: "ARRAY[1..3] OF INT", initial: [1, 2]}
              f: {type: "ARRAY[3] OF INT"}
              g: {type: "ARRAY[1..2] OF FLOAT"}
            operator:
              e: {type: "ARRAY[1..2] OF INT", initial: [1, 200], range: [0, 100]}
            outputs:
              o: {type: "ARRAY[1..2] OF BOOL"}
            """));
  }
}
