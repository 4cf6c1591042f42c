package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.ScanTable;
import bufferstop.engine.SmallController;
import bufferstop.model.StringCells;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Texts, arrays and enumerations as inputs, outputs, locals, state and values of users' functions
 * and blocks. By value and cut like any assignment: IEC 61131-3:2003, 2.5.1, 2.4.3 [from memory,
 * not re-read].
 */
class RoutineTypesTest {
  private static final String LIBRARY =
      """
      library: Kinds
      types:
        mode: [off, hand, automatic]
      constants:
        room: INT#4
        best: {type: mode, value: hand}
      functions:
        greeting:
          inputs: {whom: {type: "STRING[12]"}, first: {type: "STRING[5]", initial: hello}}
          returns: STRING[18]
          locals: {gap: {type: "STRING[1]", initial: " "}}
          body: |
            greeting := CONCAT(first, gap, whom);
            gap := '!';
        mean:
          inputs: {these: {type: "ARRAY[1..room] OF INT"}}
          returns: INT
          locals: {k: {type: INT}, sums: {type: "ARRAY[0..1] OF INT", initial: [0, 100]}}
          body: |
            FOR k := 1 TO room DO sums[0] := sums[0] + these[k]; END_FOR;
            sums[1] := sums[1] + 1;
            mean := sums[0] / room + sums[1] - 101;
        next_mode:
          inputs: {from: {type: mode, initial: hand}}
          returns: mode
          body: |
            CASE from OF
              off: next_mode := best;
              hand: next_mode := automatic;
            END_CASE;
      function_blocks:
        shift:
          inputs: {value: {type: INT}, all: {type: "ARRAY[1..room] OF INT"}, take: {type: BOOL}}
          outputs: {oldest: {type: INT}, said: {type: "STRING[8]", initial: new}, is: {type: mode}}
          state:
            kept: {type: "ARRAY[1..room] OF INT", initial: [9, 8, 7, 6]}
            names: {type: "ARRAY[0..1] OF STRING[8]", initial: [even, odd]}
            k: {type: INT}
          body: |
            IF take THEN kept := all; END_IF;
            oldest := kept[room];
            FOR k := room - 1 TO 1 BY -1 DO kept[k + 1] := kept[k]; END_FOR;
            kept[1] := value;
            said := names[value MOD 2];
            is := next_mode(is);
        holder:
          inputs: {value: {type: INT}}
          outputs: {said: {type: "STRING[3]"}, is: {type: mode}}
          state: {inner: {block: shift}, nothing: {type: "ARRAY[1..room] OF INT"}}
          body: |
            inner(value := value, all := nothing, take := FALSE, said => said);
            is := inner.is;
      """;

  private static final String PROJECT =
      """
      project: small
      scan: T#1ms
      libraries: [kinds.yaml]
      controller:
        operator:
          x: {type: INT}
          take: {type: BOOL}
        internal:
          text: {type: "STRING[30]"}
          i: {type: INT}
          m: {type: mode}
          data: {type: "ARRAY[5..8] OF INT", initial: [1, 2, 3, 4]}
      """;

  private static SmallController project(String rest) {
    return SmallController.ofFiles(
        List.of("kinds.yaml", "project.yaml"), List.of(LIBRARY, PROJECT + rest.indent(2)));
  }

  private static SmallController logic(String... statements) {
    return project("logic: |\n" + String.join("\n", statements).indent(2));
  }

  private static String text(SmallController on, String name) {
    return StringCells.unpack(
        on.rig().engine().cells(), on.rig().layout().field().find(name).index());
  }

  @Test
  void functionsTakeAndGiveTexts() {
    SmallController on = logic("text := greeting('world');").scan().scan();
    assertEquals("hello world", text(on, "text"));
  }

  @Test
  void textsAreCutToTheInputAndTheValue() {
    SmallController on = logic("text := greeting('a long way home', 'goodbye');").scan();
    assertEquals("goodb a long way h", text(on, "text"));
  }

  @Test
  void callsOfOneExpressionKeepTheirTextsApart() {
    SmallController on =
        logic("text := CONCAT(greeting('a', 'b'), '|', greeting(greeting('c', 'd'), 'e'));").scan();
    assertEquals("b a|e d c", text(on, "text"));
  }

  @Test
  void functionsTakeArraysByValue() {
    ScanTable.play(
        logic("data[5] := x;", "i := mean(data);"),
        """
        x 3 11 -9
        i 3 5  0
        """);
  }

  @Test
  void functionsTakeAndGiveEnumerations() {
    ScanTable.play(
        logic("m := next_mode(m);", "i := SEL(next_mode() = automatic, 0, 1);"),
        """
        m 1 2 0 1
        i 1 1 1 1
        """);
  }

  @Test
  void blocksKeepArraysTextsAndEnumerations() {
    SmallController on =
        project(
            """
            blocks:
              row: {block: shift, value: x, all: data, take: take}
            logic: |
              text := row.said;
              m := row.is;
            """);
    assertEquals("", text(on, "text"));
    assertEquals("new", text(on, "row.said"));
    ScanTable.play(
        on,
        """
        x          1 2 3 4 5 6
        take       0 0 0 0 1 0
        row.oldest 6 7 8 9 4 3
        m          1 2 0 1 2 0
        """);
    assertEquals("even", text(on, "text"));
  }

  @Test
  void statementsCallThemAndTakeTheirOutputs() {
    SmallController on =
        project(
            """
            blocks: {row: {block: shift}, around: {block: holder}}
            logic: |
              row(value := x, all := data, take := x = 1, said => text, is => m);
              around(value := x + 1);
            """);
    on.set("x", 1).scan();
    assertEquals("odd", text(on, "text"));
    assertEquals("eve", text(on, "around.said"));
    assertEquals(1, on.get("m"));
    assertEquals(1, on.get("around.is"));
    assertEquals(4, on.get("row.oldest"));
  }
}
