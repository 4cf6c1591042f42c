package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DiagnosticsTest {
  private final Cells cells =
      new Cells().with(Type.BOOL, "pit_beam", "start").with(Type.INT, "pit_bean", "n", "loads");

  private List<Diagnostic> wrong(String text, Type wanted) {
    SourceText source = SourceText.onLine(text, "project.yaml", 41, 40);
    assertNull(ExpressionReader.read(source, cells, wanted, cells.problems));
    return cells.problems.sorted();
  }

  @Test
  void suggestANameOfTheTypeThatFitsAndSayWhereItIsDeclared() {
    Diagnostic problem = wrong("pit_beem", Type.BOOL).get(0);
    assertEquals("no point named `pit_beem`", problem.message());
    assertEquals(new Position("project.yaml", 41, 40, 8), problem.position());
    assertEquals("a BOOL expression", problem.expected());
    assertEquals("did you mean `pit_beam`?", problem.help());
    Position declared = new Position("project.yaml", 7, 5, 8);
    assertEquals(
        List.of(new Diagnostic.Note(declared, "`pit_beam` is declared here")), problem.notes());
  }

  @Test
  void suggestOtherNamesWhenNoneThatFitsIsNear() {
    assertEquals("did you mean `loads`?", wrong("laods AND start", Type.BOOL).get(0).help());
  }

  @Test
  void findEveryUnknownNameAndNothingThatFollowsFromIt() {
    List<Diagnostic> problems = wrong("x1 + n > x2 AND (x3 OR 1.5 + x4 = x5) AND", Type.BOOL);
    assertEquals(
        List.of(40, 49, 57, 69, 74, 81),
        problems.stream().map(d -> d.position().column()).toList());
    assertEquals("a value is missing before the end", problems.get(5).message());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          start AND             | 49 | a value is missing before the end
          start start           | 46 | the expression ends before `start`
          (start                | 46 | `)` is missing before the end
          start)                | 45 | the expression ends before `)`
          start := TRUE         | 46 | the expression ends before `:=`
          start == TRUE         | 46 | `==` has no meaning here
          start && pit_beam     | 46 | `&&` has no meaning here
          start AND ?           | 50 | `?` has no meaning here
          pit__beam             | 40 | `pit__beam` is not a name
          start AND n_          | 50 | `n_` is not a name
          n = 1__0              | 44 | `1__0` is not a literal
          n = -16#FF            | 44 | a literal with a base takes no sign
          start (* open         | 46 | comment is not closed
          -n ** 2               | 40 | `-n ** 2` can be read in two ways
          SEL(start, 1 2)       | 53 | `)` is missing before `2`
          MAX(IN1 := n, 2)      | 44 | an input is named `IN1`
          n = 1 + MOD           | 48 | a value is missing before `MOD`
          IF                    | 40 | a value is missing before `IF`
          """)
  void standAtThePlaceOfTheProblemOnce(String text, int column, String message) {
    List<Diagnostic> problems = wrong(text, Type.BOOL);
    assertEquals(message, problems.get(0).message());
    assertEquals(column, problems.get(0).position().column());
    assertEquals(1, problems.size(), problems::toString);
  }

  @Test
  void findWhatIsWrongInsideACallThatIsNotClosed() {
    assertEquals(2, wrong("SEL(start, nix, n", Type.INT).size());
  }

  @Test
  void sayWhatAnEmptyTextShouldHold() {
    Diagnostic problem = wrong("  ", Type.BOOL).get(0);
    assertEquals("nothing is written here", problem.message());
    assertEquals("a BOOL expression", problem.expected());
  }

  @Test
  void refuseNestingThatNobodyCouldReadInsteadOfOverflowing() {
    for (String open : List.of("(", "NOT ", "- ", "start AND ", "SEL(start, ", "1 ** ")) {
      Diagnostics problems = new Diagnostics();
      SourceText text = SourceText.of(open.repeat(100_000));
      assertNull(ExpressionReader.read(text, cells, problems));
      assertTrue(problems.hasErrors());
    }
  }
}
