package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Symbol.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PointTest {
  @ParameterizedTest(name = "{0} from {1} to {2} and {3}: {4}")
  @CsvSource({
    "INT, -5, 5, -5, true",
    "INT, -5, 5, 5, true",
    "INT, -5, 5, 6, false",
    "INT, -5, 5, -6, false",
    "ULINT, 1, -1, -2, true",
    "ULINT, 1, -1, 0, false",
    "TIME, 1000, 2000, 1500, true",
    "TIME, 1000, 2000, 2001, false"
  })
  void aRangeHoldsItsBounds(Type type, long least, long greatest, long value, boolean admitted) {
    assertEquals(admitted, point(type, least, greatest).admits(value));
  }

  @ParameterizedTest(name = "-0.5 to 2.0 and {0}: {1}")
  @CsvSource({"-0.5, true", "2.0, true", "2.0000001, false", "-0.6, false", "NaN, false"})
  void aRangeOfRealsComparesNumbers(double value, boolean admitted) {
    Point point = point(Type.LREAL, bits(-0.5), bits(2.0));
    assertEquals(admitted, point.admits(bits(value)));
  }

  @Test
  void withoutARangeABoolTakesItsTwoValuesAndANumberAny() {
    assertEquals(false, point(Type.BOOL, null, null).admits(2));
    assertEquals(true, point(Type.BOOL, null, null).admits(1));
    assertEquals(true, point(Type.DINT, null, null).admits(-7));
  }

  @ParameterizedTest
  @CsvSource({"1.0e300, true", "NaN, false", "Infinity, false", "-Infinity, false"})
  void withoutARangeAQuantityTakesAnyFiniteNumber(double value, boolean admitted) {
    assertEquals(admitted, point(Type.LREAL, null, null).admits(bits(value)));
  }

  private static long bits(double value) {
    return Double.doubleToLongBits(value);
  }

  private static Point point(Type type, Long least, Long greatest) {
    Position nowhere = Position.ofFile("");
    return new Point(
        Kind.OPERATOR,
        "x",
        type,
        "",
        "",
        null,
        null,
        0,
        0,
        0,
        least,
        greatest,
        false,
        0,
        false,
        nowhere,
        null,
        0,
        null);
  }
}
