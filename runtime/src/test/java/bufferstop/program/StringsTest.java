package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import bufferstop.model.StringCells;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** STRING and its functions. */
class StringsTest {
  private static final String POINTS =
      """
      constants:
        unit: {type: "STRING[4]", value: kg}
      operator:
        n: {type: INT, initial: -12}
        i: {type: INT, initial: 2}
      internal:
        s: {type: "STRING[20]", initial: ASTRING}
        e: {type: STRING}
        short: {type: "STRING[3]"}
        out: {type: "STRING[254]"}
        names: {type: "ARRAY[1..3] OF STRING[9]", initial: [one, two, three]}
        number: {type: LINT, initial: 7}
        b: {type: BOOL}
        by: {type: USINT, initial: 255}
        u: {type: ULINT, initial: 18446744073709551615}
        l: {type: LINT, initial: -9223372036854775808}
      """
          .replace("  by:", "  small:");

  private static SmallController logic(String logic) {
    return SmallController.of(POINTS + "logic: |\n" + logic.indent(2));
  }

  private static String text(SmallController on, String name) {
    return StringCells.unpack(
        on.rig().engine().cells(), on.rig().layout().field().find(name).index());
  }

  // Source: IEC 61131-3:2003, Table 29, its examples with 'ASTR' [from memory, not re-read]; what
  // lies beyond the text [project choice].
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      textBlock =
          """
          LEFT('ASTR', 3)         | AST
          RIGHT('ASTR', 3)        | STR
          MID('ASTR', 2, 2)       | ST
          CONCAT('AB', 'CD', 'E') | ABCDE
          LEFT(s, 99)             | ASTRING
          RIGHT(s, 0)             | ""
          MID(s, 3, 7)            | G
          MID(s, 3, 8)            | ""
          CONCAT(s, '-', s)       | ASTRING-ASTRING
          CONCAT(LEFT(s, 2), RIGHT(s, 2)) | ASNG
          INT_TO_STRING(n)        | -12
          USINT_TO_STRING(small)  | 255
          ULINT_TO_STRING(u)      | 18446744073709551615
          LINT_TO_STRING(l)       | -9223372036854775808
          INT_TO_STRING(0)        | 0
          BOOL_TO_STRING(b)       | FALSE
          CONCAT(INT_TO_STRING(n), ' ', unit) | -12 kg
          names[i]                | two
          SEL(b, 'no', s)         | no
          'it$'s $$5 $41'         | it's $5 A
          CONCAT(names[1], names[3]) | onethree
          """)
  void areWorkedOut(String expression, String value) {
    SmallController on = logic("out := " + expression + ";");
    on.scan();
    assertEquals(value, text(on, "out"));
    assertEquals(0, on.get("scan.errors"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      textBlock =
          """
          LEN('ASTRING')          | 7
          LEN(e)                  | 0
          FIND('ABCBC', 'BC')     | 2
          FIND(s, 'x')            | 0
          FIND(s, '')             | 0
          FIND(s, 'NG')           | 6
          STRING_TO_LINT('-9223372036854775808') | -9223372036854775808
          STRING_TO_INT('+17')    | 17
          STRING_TO_INT(LEFT('123', 2)) | 12
          """)
  void areMeasured(String expression, long value) {
    SmallController on = logic("number := " + expression + ";");
    on.scan();
    assertEquals(value, on.get("number"));
    assertEquals(0, on.get("scan.errors"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      textBlock =
          """
          s = 'ASTRING'    | 1
          'ASTRING' = s    | 1
          s <> 'ASTRINGS'  | 1
          s < 'ASTRINGS'   | 1
          'ASTRINGS' > s   | 1
          s > 'AST'        | 1
          s >= s           | 1
          'a' < 'Z'        | 0
          'a' < 'b'        | 1
          s < 'B'          | 1
          s = e            | 0
          e = ''           | 1
          CONCAT(e, s) = s | 1
          '$FF' > 'a'      | 1
          """)
  void areComparedByBytes(String expression, long value) {
    SmallController on = logic("b := " + expression + ";");
    on.scan();
    assertEquals(value, on.get("b"));
  }

  // Source: [project choice].
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      textBlock =
          """
          out := LEFT(s, -1);               | 1
          out := MID(s, 1, 0);              | 1
          out := RIGHT(s, n);               | 1
          out := names[n];                  | 1
          names[n] := 'x';                  | 1
          number := STRING_TO_SINT('128');  | 1
          number := STRING_TO_INT('');      | 1
          number := STRING_TO_INT('1 2');   | 1
          number := STRING_TO_INT('-');     | 1
          number := STRING_TO_UINT('-1');   | 1
          u := STRING_TO_ULINT('18446744073709551616'); | 1
          """)
  void countWhatCannotBeWorkedOut(String statement, long errors) {
    SmallController on = logic(statement);
    on.scan();
    assertEquals(errors, on.get("scan.errors"));
    assertEquals("", text(on, "out"));
    assertEquals(7, on.get("number"));
    assertEquals("one", text(on, "names[1]"));
  }

  // Source: cut to the length of the target [project choice].
  @Test
  void areCutToTheirTarget() {
    SmallController on =
        logic(
            """
            short := s;
            s := CONCAT('>', s);
            names[i] := 'much too long for it';
            names[3] := short;
            """);
    on.scan();
    assertEquals("AST", text(on, "short"));
    assertEquals(">ASTRING", text(on, "s"));
    assertEquals("much too ", text(on, "names[2]"));
    assertEquals("AST", text(on, "names[3]"));
    assertEquals("one", text(on, "names[1]"));
    for (int scan = 0; scan < 30; scan++) {
      on.scan();
    }
    assertEquals(">>>>>>>>>>>>>>>>>>>>", text(on, "s"));
  }

  @Test
  void liePackedWithZerosBehind() {
    SmallController on = logic("s := '123456789';\nIF i = 3 THEN s := 'x'; END_IF;");
    on.scan();
    int at = on.rig().layout().field().find("s").index();
    long[] cells = on.rig().engine().cells();
    assertEquals(9, cells[at]);
    assertEquals(0x3132333435363738L, cells[at + 1]);
    assertEquals(0x3900_0000_0000_0000L, cells[at + 2]);
    on.set("i", 3).scan();
    assertEquals(1, cells[at]);
    assertEquals(0x7800_0000_0000_0000L, cells[at + 1]);
    assertEquals(0, cells[at + 2]);
  }

  @Test
  void areNothingElse() {
    assertEquals(
        List.of(
            "a STRING cannot hold 0 characters",
            "a text of 4 characters",
            "no wire carries a STRING",
            "`5` is INT",
            "`s` is STRING",
            "`s = 5` compares STRING with INT",
            "`s + s` adds STRING and STRING",
            "`s` is STRING",
            "`$q` stands for no character",
            "`'` has no meaning here"),
        SmallController.problemsOf(
            POINTS
                + """
                  zero: {type: "STRING[0]"}
                  long: {type: "STRING[3]", initial: abcd}
                outputs:
                  lamp: {type: STRING}
                logic: |
                  s := 5;
                  number := s;
                  b := s = 5;
                  s := s + s;
                  s := MAX(s, s);
                  s := '$q';
                  s := 'open;
                """));
  }
}
