package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TypesTest {
  private final Cells cells = Cells.ofEveryType();

  // Source: C3, derived from IEC 61131-3:2013, 6.6.1.6 [from memory, not re-read] and the sizes of
  // Table 10 [re-read].
  @ParameterizedTest(name = "{0} goes to {1} only")
  @CsvSource({
    "BOOL, ''",
    "SINT, INT DINT LINT REAL LREAL",
    "INT, DINT LINT REAL LREAL",
    "DINT, LINT LREAL",
    "LINT, ''",
    "USINT, UINT UDINT ULINT INT DINT LINT REAL LREAL",
    "UINT, UDINT ULINT DINT LINT REAL LREAL",
    "UDINT, ULINT LINT LREAL",
    "ULINT, ''",
    "REAL, LREAL",
    "LREAL, ''",
    "TIME, ''"
  })
  void widenOnlyWhereRangeAndPrecisionFit(Type from, String targets) {
    String name =
        cells.names().stream().filter(n -> cells.find(n).type() == from).findFirst().get();
    List<String> allowed = Arrays.asList(targets.split(" "));
    for (Type to : Type.values()) {
      boolean widens = to == from || allowed.contains(to.name());
      Expression read = ExpressionReader.read(SourceText.of(name), cells, to, new Diagnostics());
      assertEquals(widens, read != null, from + " to " + to);
    }
  }

  // Source: C4, IEC 61131-3:2013, conversion rules [from memory, not re-read].
  @Test
  void doNotReachFromTheTargetIntoTheRightSide() {
    cells.set("i", 32767).set("i2", 1);
    cells.bits(cells.read("i + i2", Type.DINT));
    assertEquals(1, cells.errors());
  }

  // Source: literals take the type they are used with [project choice].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "ui + 2, UINT", "2 + ui, UINT", "si + 200, INT", "r * 2.0, REAL", "lr * 2.0, LREAL",
    "r * 2, REAL", "ui + 2 * 3, UINT", "1, INT", "40000, DINT", "3000000000, LINT",
    "10000000000000000000, ULINT", "1.5, LREAL", "i + di, DINT", "r + lr, LREAL", "i + r, REAL",
    "usi + i + si, INT", "t * 2, TIME", "'MAX(ui, 3)', UINT", "SQRT(2.0), LREAL", "-(5), INT",
    "1 + 1.5, LREAL", "'LIMIT(0, ui, 10)', UINT", "'SEL(b, 1, r)', REAL", "ABS(si), SINT"
  })
  void followFromTheOperands(String text, Type type) {
    assertEquals(type, cells.read(text).type());
  }

  @Test
  void adaptLiteralsToTheTarget() {
    assertEquals(7, cells.read("3 + 4", Type.ULINT).constant());
    assertEquals(Double.doubleToLongBits(0.1f), cells.read("0.1", Type.REAL).constant());
    assertEquals(Double.doubleToLongBits(2.0), cells.read("10 / 4", Type.REAL).constant());
    assertEquals(Double.doubleToLongBits(2.5), cells.read("10.0 / 4", Type.REAL).constant());
  }

  // Source: C1 and C2 [from memory, not re-read]: anything else needs a conversion.
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          r + di        | `r + di` adds REAL and DINT           | write DINT_TO_REAL(di)
          di + r        | `di + r` adds DINT and REAL           | write DINT_TO_REAL(di)
          r - di        | `r - di` subtracts DINT from REAL     | write DINT_TO_REAL(di)
          i + ui        | `i + ui` adds INT and UINT            | write UINT_TO_DINT(ui)
          li * uli      | `li * uli` multiplies LINT and ULINT  | write ULINT_TO_LINT(uli)
          t + i         | `t + i` adds TIME and INT             | write INT_TO_TIME(i)
          t + 5         | `t + 5` adds TIME and INT             | write a TIME literal with its unit: `T#5s`
          2 * t         | `2 * t` multiplies INT and TIME       | write `t * 2`
          t * uli       | `t * uli` multiplies TIME and ULINT   | write ULINT_TO_LINT(uli)
          ui > -1       | `ui > -1` compares UINT with INT      | write UINT_TO_DINT(ui)
          b + 1         | `b + 1` adds BOOL and INT             | write BOOL_TO_INT(b)
          -b            | a sign before BOOL `b`                | write `NOT b`
          b = 1         | `b = 1` compares BOOL with INT        | write `TRUE` for 1
          b = i         | `b = i` compares BOOL with INT        | write `i <> 0` for a BOOL
          1 < i < 3     | `1 < i < 3` compares BOOL with INT    | write `1 < i AND i < 3`
          i AND b       | `i` is INT                            | write `i <> 0`
          NOT r         | `r` is REAL                           | write `r <> 0`
          i ** 2        | `i` is INT                            | write INT_TO_REAL(i)
          SQRT(di)      | `di` is DINT                          | write DINT_TO_LREAL(di)
          DINT_TO_INT(r) | `r` is REAL                          | write REAL_TO_DINT(r)
          """)
  void nameTheConversionThatIsMissing(String text, String message, String help) {
    List<Diagnostic> problems = cells.wrong(text);
    assertEquals(1, problems.size());
    assertEquals(message, problems.get(0).message());
    assertEquals(help, problems.get(0).help());
  }

  @Test
  void nameTheConversionToTheWantedType() {
    ExpressionReader.read(SourceText.of("di + 1"), cells, Type.INT, cells.problems);
    Diagnostic problem = cells.problems.sorted().get(0);
    assertEquals("`di + 1` is DINT", problem.message());
    assertEquals("an INT expression", problem.expected());
    assertEquals("write DINT_TO_INT(di + 1)", problem.help());
  }
}
