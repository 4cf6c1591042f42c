package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CaseTest {
  private final Cells cells = Cells.ofEveryType().with(Type.BOOL, "beam");

  private Program read(String text) {
    return StatementReader.read(StatementsTest.text(text), cells, symbol -> null, cells.problems);
  }

  private void run(String text) {
    Program program = read(text);
    assertFalse(cells.problems.hasErrors(), () -> cells.problems.sorted().toString());
    cells.run(program.statements());
  }

  private List<String> wrong(String text) {
    read(text);
    return cells.problems.sorted().stream().map(StatementsTest::brief).toList();
  }

  @ParameterizedTest(name = "for i = {0} di is {1}")
  @CsvSource({
    "-32768, 50",
    "-4, 50",
    "-3, 10",
    "-1, 10",
    "0, 20",
    "1, 30",
    "2, 30",
    "3, 30",
    "4, 50",
    "5, 40",
    "6, 50",
    "7, 40",
    "255, 60",
    "32767, 50"
  })
  void runsTheBranchWhoseLabelHoldsTheSelector(long i, long di) {
    cells.set("i", i);
    run(
        """
        CASE i OF
          7, 5: di := 40;
          1..3: di := 30;
          -3..-1: di := 10;
          0: di := 20;
          16#FF: IF TRUE THEN di := 60; END_IF;
        ELSE
          di := 50;
        END_CASE;
        """);
    assertEquals(di, cells.get("di"));
  }

  @Test
  void doesNothingWithoutElseWhenNoLabelHolds() {
    cells.set("i", 3).set("di", 8);
    run("CASE i OF 1, 2: di := 1; 4: di := 2; END_CASE;");
    assertEquals(8, cells.get("di"));
  }

  @Test
  void runsAllStatementsOfABranchAndNoneOfTheNext() {
    run("CASE i OF 0: di := 1; ; li := 2; 1: di := 3; li := 4; END_CASE;");
    assertEquals(1, cells.get("di"));
    assertEquals(2, cells.get("li"));
  }

  @ParameterizedTest(name = "for uli = {0} di is {1}")
  @CsvSource({
    "1, 1",
    "9223372036854775807, 1",
    "9223372036854775808, 2",
    "18446744073709551615, 3"
  })
  void ordersTheGreatestUnsignedIntegers(String uli, long di) {
    cells.set("uli", Long.parseUnsignedLong(uli));
    run(
        """
        CASE uli OF
          18446744073709551615: di := 3;
          0..16#7FFF_FFFF_FFFF_FFFF: di := 1;
          9223372036854775808..18446744073709551614: di := 2;
        END_CASE;
        """);
    assertEquals(di, cells.get("di"));
  }

  @Test
  void nestsAndTellsItsElseFromThatOfAnIf() {
    cells.set("i", 2).set("i2", 9);
    run(
        """
        CASE i OF
          1: di := 1;
          2: CASE i2 OF 1: di := 2; ELSE IF b THEN di := 3; ELSE di := 4; END_IF; END_CASE;
        ELSE di := 5;
        END_CASE;
        """);
    assertEquals(4, cells.get("di"));
  }

  @Test
  void takesConstantExpressionsAndNarrowerTypedLiteralsAsLabels() {
    cells.set("i", 6);
    run("CASE i OF SINT#5: di := 1; (1 + 2) * 2: di := 2; END_CASE;");
    assertEquals(2, cells.get("di"));
  }

  // An IF whose condition fails takes its ELSE; a CASE does the same [choice].
  @Test
  void takesElseWhenTheSelectorFails() {
    run("CASE i / i2 OF 0: di := 1; ELSE di := 2; END_CASE;");
    assertEquals(2, cells.get("di"));
    assertEquals(1, cells.errors());
  }

  @Test
  void listsWhatItReadsAndWrites() {
    Program program = read("CASE i OF 1: li := di; ELSE b := b2; END_CASE;");
    assertEquals(List.of("i", "di", "b2"), program.reads().stream().map(Symbol::name).toList());
    assertEquals(
        List.of("li", "b"), program.writes().stream().map(w -> w.symbol().name()).toList());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          CASE b OF 1: i := 1; END_CASE;           | 6  | `b` is BOOL
          CASE nix OF 1: i := 1; END_CASE;         | 6  | no point named `nix`
          CASE i + OF 1: di := 1; END_CASE;        | 10 | a value is missing before `OF`
          CASE i 1: di := 1; END_CASE;             | 8  | `OF` is missing before `1`
          CASE i OF di := 1; END_CASE;             | 11 | a label is missing before `di`
          CASE i OF END_CASE;                      | 11 | a label is missing before `END_CASE`
          CASE i OF 1 di := 1; END_CASE;           | 13 | `:` is missing before `di`
          CASE i OF 1, : di := 1; END_CASE;        | 14 | a value is missing before `:`
          CASE i OF 1..: di := 1; END_CASE;        | 14 | a value is missing before `:`
          CASE i OF i2: di := 1; END_CASE;         | 11 | `i2` is no constant
          CASE i OF 1..i2: di := 1; END_CASE;      | 14 | `i2` is no constant
          CASE si OF 1, 200: di := 1; END_CASE;    | 15 | `200` is outside SINT
          CASE i OF 1.5: di := 1; END_CASE;        | 11 | `1.5` is LREAL
          CASE i OF DINT#1: di := 1; END_CASE;     | 11 | `DINT#1` is DINT
          CASE i OF TRUE: di := 1; END_CASE;       | 11 | `TRUE` is BOOL
          CASE i OF 3..1: di := 1; END_CASE;       | 11 | the range `3..1` is empty
          CASE i OF 1, 2, 1: di := 1; END_CASE;    | 17 | label `1` holds a value twice
          CASE i OF 1..3: ; 3..5: ; END_CASE;      | 19 | label `3..5` holds a value twice
          CASE i OF 5: ; 1..9: ; END_CASE;         | 16 | label `1..9` holds a value twice
          CASE i OF 1: ; ELSE ; 2: ; END_CASE;     | 23 | a label after `ELSE`
          CASE i OF 1: ; ELSE ; ELSE ; END_CASE;   | 23 | a second `ELSE`
          CASE i OF 1: ; END_IF; END_CASE;         | 16 | `END_IF` without an `IF`
          CASE i OF 1: IF b THEN ; END_CASE;       | 26 | `END_IF` is missing before `END_CASE`
          IF b THEN CASE i OF 1: ; END_IF;         | 26 | `END_CASE` is missing before `END_IF`
          CASE i OF 1: di := 1;                    | 22 | `END_CASE` is missing before the end
          CASE i OF 1: di := 1 2: di := 2; END_CASE; | 20 | `;` is missing after `1`
          CASE i OF 1: di := 1; END_CASE           | 23 | `;` is missing after `END_CASE`
          END_CASE; i := 1;                        | 1  | `END_CASE` without a `CASE`
          i := 1..3;                               | 6  | `;` is missing after `1`
          """)
  void reportsOneErrorForOneCause(String text, int column, String message) {
    assertEquals(List.of("1:" + column + " " + message), wrong(text));
  }

  @Test
  void showsBothPlacesOfAValueThatTwoLabelsHold() {
    read("CASE i OF\n  1..3: di := 1;\n  2: di := 2;\nEND_CASE;");
    assertEquals(1, cells.problems.sorted().size());
    var problem = cells.problems.sorted().get(0);
    assertEquals(3, problem.position().line());
    assertEquals(1, problem.notes().size());
    assertEquals(2, problem.notes().get(0).position().line());
    assertEquals("`1..3` holds it first", problem.notes().get(0).text());
  }

  @Test
  void findsTheProblemsOfEveryBranch() {
    assertEquals(
        List.of(
            "2:6 no point named `nix`",
            "3:3 `i2` is no constant",
            "3:15 `5` is INT",
            "4:12 a value is missing before `;`",
            "5:8 no point named `nada`",
            "7:1 no point named `last`"),
        wrong(
            """
            CASE i OF
              1: nix := 3;
              i2, 4: b := 5;
              6: di := ;
              ELSE nada := 1;
            END_CASE;
            last := 1;
            """));
  }
}
