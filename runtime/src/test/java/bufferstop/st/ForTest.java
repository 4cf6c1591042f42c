package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ForTest {
  private final Cells cells = Cells.ofEveryType().with(Type.INT, "beam");

  private Program read(String text) {
    Assignable allButBeam = symbol -> symbol.name().equals("beam") ? "it is an input" : null;
    return StatementReader.read(StatementsTest.text(text), cells, allButBeam, cells.problems);
  }

  private Program run(String text) {
    Program program = read(text);
    assertFalse(cells.problems.hasErrors(), () -> cells.problems.sorted().toString());
    cells.run(program.statements());
    return program;
  }

  private List<String> wrong(String text) {
    read(text);
    return cells.problems.sorted().stream().map(StatementsTest::brief).toList();
  }

  // The value after the loop is left open by the standard; the first one beyond the end [choice].
  @ParameterizedTest(name = "FOR i := {0} runs {1} times and leaves {2}")
  @CsvSource({
    "1 TO 3, 3, 4",
    "3 TO 3, 1, 4",
    "3 TO 2, 0, 3",
    "-2 TO 2, 5, 3",
    "1 TO 6 BY 2, 3, 7",
    "6 TO 1 BY -2, 3, 0",
    "1 TO 6 BY -1, 0, 1",
    "32766 TO 32767, 2, 32767",
    "32000 TO 32767 BY 500, 2, 32500",
    "-32767 TO -32768 BY -1, 2, -32768"
  })
  void runsFromTheFirstToTheLast(String bounds, long passes, long after) {
    run("FOR i := " + bounds + " DO di := di + 1; END_FOR;");
    assertEquals(passes, cells.get("di"));
    assertEquals(after, cells.get("i"));
    assertEquals(0, cells.errors());
  }

  @ParameterizedTest(name = "FOR {0} := {1} runs {2} times and leaves {3}")
  @CsvSource({
    "uli, 18446744073709551614 TO 18446744073709551615, 2, -1",
    "uli, 0 TO 18446744073709551615 BY 18446744073709551615, 2, -1",
    "uli, 9223372036854775807 TO 9223372036854775808, 2, -9223372036854775807",
    "li, -9223372036854775808 TO 9223372036854775807 BY 9223372036854775807, 3, "
        + "9223372036854775806",
    "li, 9223372036854775807 TO -9223372036854775808 BY -9223372036854775808, 2, -1",
    "usi, 250 TO 255, 6, 255"
  })
  void endsAtTheLimitsOfTheLargestTypes(String name, String bounds, long passes, long after) {
    run("FOR " + name + " := " + bounds + " DO di := di + 1; END_FOR;");
    assertEquals(passes, cells.get("di"));
    assertEquals(after, cells.get(name));
  }

  @Test
  void showsItsVariableToTheStatementsInside() {
    run("FOR i := 1 TO 4 DO di := di * 10 + i; END_FOR;");
    assertEquals(1234, cells.get("di"));
  }

  @Test
  void evaluatesItsBoundsOnce() {
    cells.set("si", 2).set("si2", 4);
    run("FOR i := si TO si2 DO si := 0; si2 := 100; di := di + 1; END_FOR;");
    assertEquals(3, cells.get("di"));
  }

  @Test
  void leavesWithExitTheInnermostLoopAlone() {
    run(
        """
        FOR i := 1 TO 3 DO
          FOR i2 := 1 TO 100 DO
            IF i2 > i THEN EXIT; END_IF;
            di := di + 1;
          END_FOR;
          li := li * 10 + i2;
        END_FOR;
        """);
    assertEquals(6, cells.get("di"));
    assertEquals(234, cells.get("li"));
    assertEquals(4, cells.get("i"));
  }

  @Test
  void leavesWithExitFromACaseAndRunsNothingAfterIt() {
    run("FOR i := 1 TO 9 DO CASE i OF 3: EXIT; di := 1; END_CASE; END_FOR; di2 := i;");
    assertEquals(0, cells.get("di"));
    assertEquals(3, cells.get("di2"));
  }

  @Test
  void doesNothingWithAnErrorInABound() {
    cells.set("i", 7);
    run("FOR i := 1 TO 9 / i2 DO di := 1; END_FOR; li := 5;");
    assertEquals(7, cells.get("i"));
    assertEquals(0, cells.get("di"));
    assertEquals(5, cells.get("li"));
    assertEquals(1, cells.errors());
  }

  @Test
  void makesAMillionPassesWithoutAnError() {
    run("FOR li := 1 TO 1000000 DO di := di + 1; END_FOR;");
    assertEquals(1_000_000, cells.get("di"));
    assertEquals(0, cells.errors());
  }

  @Test
  void endsWithAnErrorAfterAMillionPassesAndLetsTheScanGoOn() {
    run("FOR li := 1 TO 1000001 DO di := di + 1; END_FOR; i := 5;");
    assertEquals(1_000_000, cells.get("di"));
    assertEquals(1_000_001, cells.get("li"));
    assertEquals(1, cells.errors());
    assertEquals(5, cells.get("i"));
  }

  @Test
  void countsThePassesOfAllLoopsInAScanTogether() {
    run("FOR i := 1 TO 3 DO FOR li := 1 TO 400000 DO di := di + 1; END_FOR; END_FOR;");
    assertEquals(1_000_000 - 3, cells.get("di"));
    assertEquals(1, cells.errors());
  }

  @Test
  void countsThePassesOfEveryScanAnew() {
    Program program = run("FOR li := 1 TO 600000 DO di := di + 1; END_FOR;");
    cells.run(program.statements());
    assertEquals(1_200_000, cells.get("di"));
    assertEquals(0, cells.errors());
  }

  @Test
  void listsWhatItReadsAndWrites() {
    Program program = read("FOR i := si TO si2 DO di := usi; END_FOR;");
    assertFalse(cells.problems.hasErrors());
    assertEquals(List.of("si", "si2", "usi"), program.reads().stream().map(Symbol::name).toList());
    assertEquals(
        List.of("i", "di"), program.writes().stream().map(w -> w.symbol().name()).toList());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          FOR r := 1 TO 3 DO ; END_FOR;              | 5  | `r` is REAL
          FOR nix := 1 TO 3 DO ; END_FOR;            | 5  | no point named `nix`
          FOR beam := 1 TO 3 DO ; END_FOR;           | 5  | `beam` cannot be assigned: it is an input
          FOR 1 TO 3 DO ; END_FOR;                   | 5  | a variable is missing before `1`
          FOR i = 1 TO 3 DO ; END_FOR;               | 7  | `:=` is missing before `=`
          FOR i := 1 DO ; END_FOR;                   | 12 | `TO` is missing before `DO`
          FOR i := 1 TO DO ; END_FOR;                | 15 | a value is missing before `DO`
          FOR i := 1 TO 3 di := 1; END_FOR;          | 17 | `DO` is missing before `di`
          FOR i := 1 TO 3 BY DO ; END_FOR;           | 20 | a value is missing before `DO`
          FOR i := 1 TO 3 BY 0 DO ; END_FOR;         | 20 | `0` is no step
          FOR i := 1 TO 3 BY i2 DO ; END_FOR;        | 20 | `i2` is no constant
          FOR i := 1 TO di DO ; END_FOR;             | 15 | `di` is DINT
          FOR usi := 3 TO 1 BY -1 DO ; END_FOR;      | 22 | `-1` is outside USINT
          FOR i := 1 TO 3 DO i := 5; END_FOR;        | 20 | `i` is assigned inside its own loop
          FOR i := 1 TO 3 DO FOR I := 1 TO 2 DO ; END_FOR; END_FOR; | 24 | `I` is assigned inside its own loop
          FOR i := 1 TO 3 DO di := 1;                | 28 | `END_FOR` is missing before the end
          IF b THEN FOR i := 1 TO 3 DO ; END_IF;     | 32 | `END_FOR` is missing before `END_IF`
          FOR i := 1 TO 3 DO IF b THEN ; END_FOR;    | 32 | `END_IF` is missing before `END_FOR`
          FOR i := 1 TO 3 DO ; END_FOR               | 22 | `;` is missing after `END_FOR`
          END_FOR;                                   | 1  | `END_FOR` without a `FOR`
          IF b THEN EXIT; END_IF;                    | 11 | `EXIT` outside a loop
          WHILE b DO i := nix; END_WHILE;            | 1  | `WHILE` is refused: nothing bounds how often it runs in a scan
          REPEAT i := nix; UNTIL b END_REPEAT;       | 1  | `REPEAT` is refused: nothing bounds how often it runs in a scan
          """)
  void reportsOneErrorForOneCause(String text, int column, String message) {
    assertEquals(List.of("1:" + column + " " + message), wrong(text));
  }

  @Test
  void allowsItsVariableToBeAssignedAfterTheLoop() {
    run("FOR i := 1 TO 3 DO ; END_FOR; i := 9; FOR i := 1 TO 2 DO ; END_FOR;");
    assertEquals(3, cells.get("i"));
  }

  @Test
  void pointsFromAnAssignmentInsideToTheLoop() {
    read("FOR i := 1 TO 3 DO\n  i := 5;\nEND_FOR;");
    var problem = cells.problems.sorted().get(0);
    assertEquals(2, problem.position().line());
    assertEquals(1, problem.notes().get(0).position().line());
    assertEquals(5, problem.notes().get(0).position().column());
  }

  @Test
  void findsTheProblemsInsideAndAfterABrokenLoop() {
    assertEquals(
        List.of(
            "1:12 `TO` is missing before `DO`",
            "2:9 no point named `nix`",
            "4:6 no point named `nada`"),
        wrong("FOR i := 1 DO\n  di := nix;\nEND_FOR;\ni := nada;"));
  }
}
