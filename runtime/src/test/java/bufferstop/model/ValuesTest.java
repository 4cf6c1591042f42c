package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ValuesTest {
  @ParameterizedTest(name = "{0} us is {1}")
  @CsvSource({
    "0, T#0s",
    "1, T#0.001ms",
    "1500, T#1.5ms",
    "1000, T#1ms",
    "999999, T#999.999ms",
    "1500000, T#1s500ms",
    "90000000, T#1m30s",
    "3600000000, T#1h",
    "3661001001, T#1h1m1s1.001ms",
    "90000000000, T#25h",
    "-1500000, T#-1s500ms",
    "9223372036854775807, T#2562047788h54s775.807ms",
    "-9223372036854775808, T#-2562047788h54s775.808ms"
  })
  void aDurationIsALiteral(long micros, String text) {
    assertEquals(text, Values.time(micros));
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "0, 0",
    "-0.0, 0",
    "12, 12",
    "-3, -3",
    "0.1, 0.1",
    "0.30000000000000004, 0.3",
    "2.5, 2.5",
    "123456.7, 123457",
    "1234567.5, 1.23457e6",
    "0.00001, 1.0e-5",
    "1.5E-7, 1.5e-7",
    "2.5E20, 2.5e20",
    "NaN, NaN",
    "Infinity, Infinity",
    "-Infinity, -Infinity"
  })
  void aNumberHasSixDigits(double value, String text) {
    assertEquals(text, Values.number(value));
  }

  @Test
  void noLocaleChangesAnything() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.GERMANY);
      assertEquals("2.5", Values.number(2.5));
      assertEquals("T#2.5ms", Values.time(2500));
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void aCellIsPrintedByItsType() {
    assertEquals("TRUE", Values.print(Type.BOOL, 1));
    assertEquals("FALSE", Values.print(Type.BOOL, 0));
    assertEquals("-5", Values.print(Type.INT, -5));
    assertEquals("18446744073709551615", Values.print(Type.ULINT, -1));
    assertEquals("2.5", Values.print(Type.LREAL, Double.doubleToLongBits(2.5)));
    assertEquals("T#2s", Values.print(Type.TIME, 2_000_000));
  }
}
