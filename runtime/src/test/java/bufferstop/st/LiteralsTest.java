package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LiteralsTest {
  private final Diagnostics problems = new Diagnostics();

  private Long literal(String text, Type wanted) {
    return ExpressionReader.literal(SourceText.of(text), wanted, problems);
  }

  // Source: IEC 61131-3:2003, 2.2.1 and Table 4 [from memory, not re-read]; base 2 also in Table 22
  // note d [re-read].
  @ParameterizedTest
  @CsvSource({
    "12, 12",
    "-12, -12",
    "+5, 5",
    "1_000, 1000",
    "16#FF, 255",
    "16#ff, 255",
    "2#1010, 10",
    "2#1111_0000, 240",
    "8#17, 15",
    "INT#5, 5",
    "INT#-5, -5",
    "USINT#16#9, 9",
    "012, 12"
  })
  void readsIntegers(String text, long value) {
    assertEquals(value, literal(text, Type.INT), () -> problems.sorted().toString());
  }

  // Source: as above; ranges from Table 10 notes c, d [re-read].
  @ParameterizedTest
  @CsvSource({
    "UINT#16#9, UINT, 9",
    "SINT#-128, SINT, -128",
    "-32768, INT, -32768",
    "18446744073709551615, ULINT, -1",
    "-9223372036854775808, LINT, -9223372036854775808"
  })
  void readsIntegersUpToTheirRange(String text, Type type, long value) {
    assertEquals(value, literal(text, type), () -> problems.sorted().toString());
  }

  // Source: IEC 61131-3:2003, 2.2.1, Table 4, B.1.2.1 [from memory, not re-read]; ranges follow
  // from
  // Table 10 [re-read].
  @ParameterizedTest
  @ValueSource(
      strings = {
        "1__0",
        "_1",
        "1_",
        "-16#FF",
        "16#-FF",
        "SINT#200",
        "16#",
        "2#12",
        "3#11",
        "16#F__F",
        "INT#",
        "FOO#1",
        "1 2",
        "1+1",
        "(1)",
        "x",
        "99999999999999999999",
        "",
        "'"
      })
  void refusesWhatIsNoInteger(String text) {
    assertNull(literal(text, Type.LINT));
    assertEquals(1, problems.sorted().size(), () -> problems.sorted().toString());
  }

  // Source: IEC 61131-3:2003, B.1.2.1 [from memory, not re-read].
  @ParameterizedTest
  @CsvSource({
    "1.5E3, 1500.0",
    "1.5e3, 1500.0",
    "1.0E-2, 0.01",
    "-0.5, -0.5",
    "LREAL#2.5, 2.5",
    "LREAL#-1.5E-3, -0.0015",
    "3, 3.0",
    "-3, -3.0",
    "1_0.2_5, 10.25"
  })
  void readsReals(String text, double value) {
    assertEquals(Double.doubleToLongBits(value), literal(text, Type.LREAL));
  }

  @Test
  void roundsARealToSinglePrecisionOnce() {
    assertEquals(Double.doubleToLongBits((double) 0.1f), literal("0.1", Type.REAL));
  }

  // Source: IEC 61131-3:2003, B.1.2.1 [from memory, not re-read].
  @ParameterizedTest
  @CsvSource({"1E3, write `1.0E3`", "1., write `1.0`", ".5, write `0.5`", "1E-3, write `1.0E-3`"})
  void refusesRealsWithoutDigitsOnBothSides(String text, String help) {
    assertNull(literal(text, Type.LREAL));
    assertEquals(help, problems.sorted().get(0).help());
  }

  // Source: V4 of the rules, arithmetic of IEC 60559 [computed]: REAL is exact up to 2^24.
  @Test
  void takesAnIntegerAsRealOnlyWhenExact() {
    assertEquals(Double.doubleToLongBits(16_777_216.0), literal("16777216", Type.REAL));
    assertNull(literal("16777217", Type.REAL));
    assertNull(literal("1.0E39", Type.REAL));
    assertNull(literal("1.0E309", Type.LREAL));
  }

  // Source: IEC 61131-3:2003, Table 4 and 2.1 [from memory, not re-read].
  @ParameterizedTest
  @CsvSource({"TRUE, 1", "FALSE, 0", "true, 1", "BOOL#1, 1", "BOOL#0, 0", "bool#TRUE, 1"})
  void readsBools(String text, long value) {
    assertEquals(value, literal(text, Type.BOOL));
  }

  @ParameterizedTest
  @ValueSource(strings = {"1", "0", "BOOL#2", "yes", "-TRUE", "T#1s"})
  void refusesWhatIsNoBool(String text) {
    assertNull(literal(text, Type.BOOL));
    assertEquals(1, problems.sorted().size(), () -> problems.sorted().toString());
  }

  // Source: IEC 61131-3:2003, B.1.2.3.1 and Table 7 [re-read]; the run-over sentence 2.2.3.1 [from
  // memory, not re-read]; T#1h5ms [project choice: accepted]; down to 1 us [project choice].
  @ParameterizedTest
  @CsvSource({
    "T#1h2m3s4ms, 3723004000",
    "TIME#14ms, 14000",
    "t#-14ms, -14000",
    "T#14.7s, 14700000",
    "T#14.7m, 882000000",
    "T#14.7h, 52920000000",
    "T#14.7d, 1270080000000",
    "T#25h15m, 90900000000",
    "t#25h_15m, 90900000000",
    "t#5d14h12m18s3.5ms, 483138003500",
    "T#1h5ms, 3600005000",
    "T#0.001ms, 1",
    "T#0s, 0",
    "T#+1s, 1000000"
  })
  void readsTimesInMicroseconds(String text, long micros) {
    assertEquals(micros, literal(text, Type.TIME), () -> problems.sorted().toString());
  }

  // Source: IEC 61131-3:2003, B.1.2.3.1 [re-read] (order, fraction); 2.2.3.1 [from memory, not
  // re-read] (run-over); finer than 1 us [project choice: refused].
  @ParameterizedTest
  @ValueSource(
      strings = {
        "T#1h90m",
        "T#1.5h30m",
        "T#30m1h",
        "T#1s1s",
        "T#0.0001ms",
        "T#5",
        "T#",
        "T#1s_",
        "T#1h__5m",
        "T#.5s",
        "T#300000000d",
        "8",
        "T#1x"
      })
  void refusesWhatIsNoTime(String text) {
    assertNull(literal(text, Type.TIME));
    assertEquals(1, problems.sorted().size(), () -> problems.sorted().toString());
  }

  @Test
  void widensATypedLiteralButNeverNarrowsIt() {
    assertEquals(5, literal("INT#5", Type.DINT));
    assertNull(literal("DINT#5", Type.INT));
    assertTrue(problems.hasErrors());
  }

  @Test
  void saysTheRangeOfALiteralOutsideIt() {
    assertNull(literal("300", Type.USINT));
    assertEquals("`300` is outside USINT", problems.sorted().get(0).message());
    assertEquals("0 to 255", problems.sorted().get(0).expected());
  }
}
