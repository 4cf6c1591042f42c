package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostic;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StatementsTest {
  private final Cells cells = Cells.ofEveryType().with(Type.BOOL, "beam");

  private Program read(String text) {
    Assignable allButBeam =
        symbol -> symbol.name().equals("beam") ? "an input is written by the field" : null;
    return StatementReader.read(text(text), cells, allButBeam, cells.problems);
  }

  /** Text of a file whose first line is line 1. */
  static SourceText text(String value) {
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    int line = 1;
    int column = 1;
    for (int i = 0; i < lines.length; i++) {
      lines[i] = line;
      columns[i] = column++;
      if (i < value.length() && value.charAt(i) == '\n') {
        line++;
        column = 1;
      }
    }
    return new SourceText(value, "project.yaml", lines, columns);
  }

  private void run(String text) {
    Program program = read(text);
    assertFalse(cells.problems.hasErrors(), () -> cells.problems.sorted().toString());
    cells.run(program.statements());
  }

  @Test
  void assignInOrder() {
    run("i := 2; // two\nI2 := i * 3; (* six *) ; di := i2; r := i2;");
    assertEquals(6, cells.get("i2"));
    assertEquals(6, cells.get("di"));
    assertEquals(Double.doubleToLongBits(6.0), cells.get("r"));
  }

  @ParameterizedTest(name = "for i = {0} di is {1}")
  @CsvSource({"1, 10", "2, 20", "3, 30", "4, 40"})
  void takeTheFirstBranchThatHolds(long i, long di) {
    cells.set("i", i);
    run(
        """
        IF i = 1 THEN di := 10;
        ELSIF i = 2 THEN di := 20;
        elsif i <= 3 then di := 30;
        ELSE IF TRUE THEN di := 40; END_IF;
        END_IF;
        """);
    assertEquals(di, cells.get("di"));
  }

  // Source: F2 [project choice]: mark the result bad, keep the last good value of the target.
  @Test
  void keepTheTargetWhenTheRightSideFails() {
    cells.set("i", 5).set("b", 1).set("si", 100);
    run("i := 7 / i2; b := i2 / i2 = 0; si := si + si; li := 3;");
    assertEquals(5, cells.get("i"));
    assertEquals(1, cells.get("b"));
    assertEquals(100, cells.get("si"));
    assertEquals(3, cells.get("li"));
    assertEquals(3, cells.errors());
  }

  @Test
  void takeElseWhenTheConditionFails() {
    run("IF i / i2 = 0 THEN di := 1; ELSE di := 2; END_IF;");
    assertEquals(2, cells.get("di"));
  }

  @Test
  void listWhatTheyWriteAndRead() {
    Program program = read("i := i2;\nIF b THEN i := 1; di := i; END_IF;");
    assertEquals(
        List.of("i", "di"), program.writes().stream().map(w -> w.symbol().name()).toList());
    assertEquals(2, program.writes().get(1).position().line());
    assertEquals(19, program.writes().get(1).position().column());
    assertEquals(List.of("i2", "b", "i"), program.reads().stream().map(Symbol::name).toList());
  }

  @Test
  void findTheProblemsOfEveryStatement() {
    read(
        """
        i := nix + nada;
        beam := TRUE;
        i = 3;
        b := 5;
        IF i THEN
          zzz := 1;
        ELSIF b2 OR THEN
          di := 1.5;
        END_IF;
        WHILE i < 3 DO b := qqq; END_WHILE;
        li := 3
        b := TRUE;
        """);
    assertEquals(
        List.of(
            "1:6 no point named `nix`",
            "1:12 no point named `nada`",
            "2:1 `beam` cannot be assigned: an input is written by the field",
            "3:3 `:=` is missing before `=`",
            "4:6 `5` is INT",
            "5:4 `i` is INT",
            "6:3 no point named `zzz`",
            "7:13 a value is missing before `THEN`",
            "8:9 `1.5` is LREAL",
            "10:1 `WHILE` is refused: nothing bounds how often it runs in a scan",
            "11:7 `;` is missing after `3`"),
        cells.problems.sorted().stream().map(StatementsTest::brief).toList());
  }

  static String brief(Diagnostic d) {
    return d.position().line() + ":" + d.position().column() + " " + d.message();
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          IF b THEN i := 1;          | 18 | `END_IF` is missing before the end
          END_IF; i := 1;            | 1  | `END_IF` without an `IF`
          IF b i := 1; END_IF;       | 6  | `THEN` is missing before `i`
          i := 1                     | 6  | `;` is missing after `1`
          i := ;                     | 6  | a value is missing before `;`
          i;                         | 2  | `:=` is missing before `;`
          IF b THEN i := 1; END_IF   | 19 | `;` is missing after `END_IF`
          5 := i;                    | 1  | a statement starts with `5`
          IF b THEN ELSE ELSE END_IF;| 16 | a second `ELSE`
          i := 1 + ? ; di := 1;      | 10 | `?` has no meaning here
          """)
  void reportOneErrorForOneCause(String text, int column, String message) {
    read(text);
    assertEquals(
        List.of("1:" + column + " " + message),
        cells.problems.sorted().stream().map(StatementsTest::brief).toList());
  }

  @Test
  void refuseNestingThatNobodyCouldReadInsteadOfOverflowing() {
    read("IF b THEN ".repeat(50_000));
    assertTrue(cells.problems.hasErrors());
  }
}
