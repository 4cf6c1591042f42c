package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FunctionsTest {
  private final Cells cells = Cells.ofEveryType();

  // Source: rounding and TRUNC IEC 61131-3:2003, Table 22 notes b and c [re-read]; MIN to MUX Table
  // 27 and errors Annex E [from memory, not re-read].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          REAL_TO_INT(1.6)  | 2
          REAL_TO_INT(-1.6) | -2
          REAL_TO_INT(1.5)  | 2
          REAL_TO_INT(-1.5) | -2
          REAL_TO_INT(1.4)  | 1
          REAL_TO_INT(-1.4) | -1
          REAL_TO_INT(2.5)  | 2
          REAL_TO_INT(-2.5) | -2
          REAL_TO_INT(0.5)  | 0
          REAL_TO_INT(-0.5) | 0
          REAL_TO_INT(32767.5) | error
          DINT_TO_REAL(16777217) | 1.6777216E7
          TRUNC(1.6)        | 1
          TRUNC(-1.6)       | -1
          TRUNC(1.4)        | 1
          TRUNC(-1.4)       | -1
          TRUNC(2.9999)     | 2
          ABS(-3.5)         | 3.5
          SQRT(2.25)        | 1.5
          LIMIT(0, 15, 10)  | 10
          LIMIT(0, -1, 10)  | 0
          LIMIT(10, 5, 0)   | 0
          SEL(FALSE, 3, 4)  | 3
          SEL(TRUE, 3, 4)   | 4
          MUX(0, 10, 20, 30) | 10
          MUX(2, 10, 20, 30) | 30
          MUX(3, 10, 20, 30) | error
          MUX(-1, 10, 20, 30) | error
          """)
  void giveTheValuesOfTheTable(String text, String value) {
    assertEquals(value, cells.outcome(text));
  }

  @Test
  void failToConvertNaN() {
    cells.set("r", Double.NaN);
    assertEquals("error", cells.outcome("REAL_TO_INT(r)"));
    assertEquals("error", cells.outcome("MAX(r, 1.0)"));
    assertEquals("error", cells.outcome("r + 1.0"));
  }

  // Source: Table 23 [re-read] for the names; SQRT below 0 and LN up to 0 [project choice: error];
  // the values are mathematics.
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "LN(1.0), 0.0", "LOG(1000.0), 3.0", "EXP(0.0), 1.0", "SIN(0.0), 0.0", "COS(0.0), 1.0",
    "TAN(0.0), 0.0", "ASIN(0.0), 0.0", "ACOS(1.0), 0.0", "ATAN(0.0), 0.0", "SQRT(-1.0), error",
    "LN(0.0), error", "LN(-1.0), error", "ASIN(2.0), error", "EXP(1000.0), error", "SQRT(4), 2.0",
    "'MIN(3, 1, 2)', 1", "'MAX(3, 1, 2)', 3", "'MAX(T#1s, T#2s)', 2000000"
  })
  void computeReals(String text, String value) {
    assertEquals(value, cells.outcome(text));
  }

  // Source: BOOL to integer [from memory, not re-read]; TIME in milliseconds [project choice];
  // results that do not fit, Annex E [from memory, not re-read].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "BOOL_TO_INT(TRUE), 1",
    "DINT_TO_TIME(1500), 1500000",
    "LREAL_TO_TIME(1.5), 1500",
    "TIME_TO_DINT(T#1.5s), 1500",
    "TIME_TO_DINT(T#0.5ms), 0",
    "TIME_TO_DINT(T#1.5ms), 2",
    "TIME_TO_INT(T#-0.0015s), -2",
    "TIME_TO_LREAL(T#1.5ms), 1.5",
    "TIME_TO_SINT(T#1s), error",
    "TIME_TO_UDINT(T#-1s), error",
    "DINT_TO_INT(40000), error",
    "INT_TO_UINT(-1), error",
    "ULINT_TO_LINT(18446744073709551615), error",
    "LINT_TO_ULINT(-1), error",
    "UINT_TO_INT(32767), 32767",
    "LREAL_TO_ULINT(18446744073709551616.0), error",
    "LREAL_TO_ULINT(9223372036854775808.0), 9223372036854775808",
    "LREAL_TO_LINT(9223372036854775808.0), error",
    "LREAL_TO_LINT(-9223372036854775808.0), -9223372036854775808",
    "ULINT_TO_LREAL(18446744073709551615), 1.8446744073709552E19",
    "LREAL_TO_REAL(0.1), 0.10000000149011612",
    "LREAL_TO_REAL(1.0E39), error",
    "LINT_TO_TIME(9223372036854775807), error",
    "ULINT_TO_TIME(18446744073709551615), error"
  })
  void convert(String text, String value) {
    assertEquals(value, cells.outcome(text));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          SQTR(lr)       | no function named `SQTR`        | did you mean `SQRT`?
          INT_TO_BOOL(i) | no function named `INT_TO_BOOL` | write `i <> 0`
          LIMIT(1, i)    | `LIMIT` has 2 inputs            | ''
          ABS()          | `ABS` has 0 inputs              | ''
          ADD(1)         | `ADD` has 1 input               | ''
          MAX(i, b)      | `MAX(i, b)` mixes INT and BOOL  | convert one, for example with BOOL_TO_INT
          ABS(t)         | `t` is TIME                     | ''
          MUX(b, 1, 2)   | `b` is BOOL                     | ''
          MIN(b, b2)     | `b` is BOOL                     | ''
          """)
  void explainWrongCalls(String text, String message, String help) {
    assertEquals(message, cells.wrong(text).get(0).message());
    assertEquals(help, cells.problems.sorted().get(0).help());
    assertEquals(1, cells.problems.sorted().size());
  }
}
