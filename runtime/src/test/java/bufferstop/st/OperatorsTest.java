package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class OperatorsTest {
  private final Cells cells = Cells.ofEveryType();

  // Source: IEC 61131-3:2003, 3.3.1, Table 55 [re-read]; equal levels from the left [from memory,
  // not re-read].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "2 + 3 * 4, 14",
    "(2 + 3) * 4, 20",
    "10 / 4 * 2, 4",
    "7 MOD 3 * 2, 2",
    "5 - 3 - 1, 1",
    "2.0 ** 3.0 ** 2.0, 64.0",
    "(-2.0) ** 2.0, 4.0",
    "-(2.0 ** 2.0), -4.0",
    "NOT FALSE AND FALSE, FALSE",
    "TRUE OR TRUE AND FALSE, TRUE",
    "TRUE XOR TRUE AND FALSE, TRUE",
    "TRUE OR TRUE XOR TRUE, TRUE",
    "1 < 2 = TRUE, TRUE",
    "TRUE & FALSE, FALSE",
    "not true or true, TRUE",
    "2.0 ** -1.0, 0.5",
    "1 - -1, 2",
    "'EXPT(2.0, 3)', 8.0",
    "'ADD(1, 2, 3)', 6",
    "'SUB(5, 2)', 3",
    "'MUL(2, 3)', 6",
    "'DIV(7, 2)', 3",
    "MOVE(4), 4"
  })
  void bindAsTheStandardSays(String text, String value) {
    assertEquals(value, cells.value(text));
  }

  // Source: X2 [project choice]; `3 > 2 > 1` from Table 55 [re-read] and the types of BOOL.
  @ParameterizedTest
  @ValueSource(strings = {"-2.0 ** 2.0", "-lr ** 2", "2.0 ** -lr ** 2", "3 > 2 > 1", "b < b2"})
  void areRefusedWhereReadersDiffer(String text) {
    assertEquals(1, cells.wrong(text).size());
  }

  // Source: X3 [project choice: full evaluation, errors of a side that did not matter reported].
  @Test
  void evaluateBothSidesAlways() {
    cells.set("i", 0).set("i2", 7);
    Expression guarded = cells.read("i <> 0 AND i2 / i > 3");
    assertFalse(guarded.truth(cells.cells));
    assertEquals(1, cells.errors());
  }

  @Test
  void giveFalseForAWholeConditionWithAnError() {
    assertFalse(cells.read("NOT (i / i2 > 3)").truth(cells.cells));
    assertFalse(cells.read("TRUE OR i / i2 > 3").truth(cells.cells));
    assertEquals(2, cells.errors());
  }

  // Source: F3 and F4, IEC 61131-3:2003, Table 24 notes a [re-read] and c [from memory, not
  // re-read]; F1, Annex E [from memory, not re-read]; range errors [project choice].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "7 / 2, 3",
    "-7 / 2, -3",
    "7 / -2, -3",
    "-7 / -2, 3",
    "7 MOD 3, 1",
    "-7 MOD 3, -1",
    "7 MOD -3, 1",
    "-7 MOD -3, -1",
    "7 MOD 0, 0",
    "7 / i, error",
    "7.0 / lr, error",
    "INT#32767 + 1, error",
    "INT#-32768 - 1, error",
    "SINT#-128 / SINT#-1, error",
    "ABS(SINT#-128), error",
    "LINT#-9223372036854775808 / -1, error",
    "UINT#0 - UINT#1, error",
    "DINT#65536 * DINT#65536, error",
    "T#2s - T#3s, -1000000",
    "REAL#3.4E38 * 10.0, error",
    "SINT#-128 MOD SINT#-1, 0",
    "LINT#-9223372036854775808 MOD -1, 0",
    "ULINT#18446744073709551615 + 1, error",
    "ULINT#4294967296 * ULINT#4294967296, error",
    "ULINT#4294967296 * ULINT#4294967295, 18446744069414584320",
    "ULINT#0 - ULINT#1, error",
    "ULINT#18446744073709551615 / 2, 9223372036854775807",
    "ULINT#18446744073709551615 MOD 10, 5",
    "-INT#-32768, error",
    "LINT#9223372036854775807 + 1, error",
    "LINT#4294967296 * LINT#4294967296, error",
    "LREAL#1.0E308 * 10.0, error",
    "(-8.0) ** 0.5, error",
    "0.0 ** -1.0, error"
  })
  void neverWrap(String text, String value) {
    assertEquals(value, cells.outcome(text));
  }

  // Source: TIME operations, IEC 61131-3:2003, Table 30 [from memory, not re-read]; rounding of a
  // product with a real to the nearest microsecond [project choice].
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "T#2s + T#3s, 5000000",
    "T#2s * 3, 6000000",
    "T#2s * 1.5, 3000000",
    "T#3s / 2, 1500000",
    "T#3s / 1.5, 2000000",
    "-T#2s, -2000000",
    "T#1s < T#2s, TRUE",
    "T#1s = T#1000ms, TRUE",
    "t / i, error",
    "t / lr, error",
    "T#100000000d * 2, error",
    "T#0.001ms / 2, 0",
    "T#-0.003ms / 2, -1",
    "T#0.001ms * 0.5, 0",
    "T#0.003ms * 0.5, 2"
  })
  void reckonWithTime(String text, String value) {
    assertEquals(value, cells.outcome(text));
  }

  @Test
  void compareUnsignedAndRealValuesAsWhatTheyAre() {
    cells.set("uli", -1L).set("uli2", 1).set("lr", Double.NaN).set("r", -0.0);
    assertTrue(cells.read("uli > uli2").truth(cells.cells));
    assertTrue(cells.read("r = 0.0").truth(cells.cells));
    assertEquals(0, cells.errors());
    assertFalse(cells.read("lr <> 1.0").truth(cells.cells));
    assertEquals(1, cells.errors());
  }

  // Source: F4 [project choice: warn at load time]; constant division by zero [project choice].
  @Test
  void warnOfAConstantZeroModulusAndRefuseAConstantZeroDivisor() {
    cells.read("i MOD 0");
    assertEquals("`i MOD 0` is always 0", cells.problems.sorted().get(0).message());
    assertFalse(cells.problems.hasErrors());
    assertEquals("division by zero", cells.wrong("  i / (1 - 1)").get(1).message());
    assertEquals(7, cells.problems.sorted().get(1).position().column());
  }

  @Test
  void warnOfConstantsThatAlwaysFail() {
    cells.read("i + (INT#32767 + 1)");
    assertEquals(
        "`INT#32767 + 1` has no value in INT: it always raises an error",
        cells.problems.sorted().get(0).message());
  }

  @Test
  void giveTheValueInEveryForm() {
    cells.set("t", 1_500_000).set("uli", -1L).set("r", 0.5);
    assertEquals(1.5, cells.read("t").real(cells.cells));
    assertEquals(0x1p64, cells.read("uli").real(cells.cells));
    assertEquals(1.0, cells.read("r + 0.5").real(cells.cells));
    assertEquals(Type.REAL, cells.read("r + 0.5").type());
  }
}
