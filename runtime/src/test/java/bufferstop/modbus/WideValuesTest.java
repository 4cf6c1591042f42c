package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Values wider than a register. The words of 123456.0 are those of a published example, the others
 * follow from IEEE 754 and two's complement; they were worked out apart from this code.
 */
class WideValuesTest {
  private static final Table HOLDING = Table.HOLDING_REGISTER;

  private static Bench one(Type type, WordOrder order) {
    return new Bench().operator(HOLDING, 0, type, order, null, null).scanned();
  }

  private static long cell(Type type, String value) {
    return type.isReal()
        ? Double.doubleToRawLongBits(Double.parseDouble(value))
        : Long.parseLong(value);
  }

  @ParameterizedTest(name = "{1} as {0}, {2}, is {3}")
  @CsvSource({
    "REAL, 123456.0, HIGH_WORD_FIRST, 47 F1 20 00",
    "REAL, 123456.0, LOW_WORD_FIRST, 20 00 47 F1",
    "REAL, -1.5, HIGH_WORD_FIRST, BF C0 00 00",
    "REAL, -1.5, LOW_WORD_FIRST, 00 00 BF C0",
    "UDINT, 123456789, HIGH_WORD_FIRST, 07 5B CD 15",
    "UDINT, 123456789, LOW_WORD_FIRST, CD 15 07 5B",
    "UDINT, 4294967295, HIGH_WORD_FIRST, FF FF FF FF",
    "DINT, -123456, HIGH_WORD_FIRST, FF FE 1D C0",
    "DINT, -123456, LOW_WORD_FIRST, 1D C0 FF FE",
    "LREAL, 1.0, HIGH_WORD_FIRST, 3F F0 00 00 00 00 00 00",
    "LREAL, 1.0, LOW_WORD_FIRST, 00 00 00 00 00 00 3F F0",
    "LREAL, -0.1, HIGH_WORD_FIRST, BF B9 99 99 99 99 99 9A",
    "LINT, -2, HIGH_WORD_FIRST, FF FF FF FF FF FF FF FE",
    "ULINT, 81985529216486895, HIGH_WORD_FIRST, 01 23 45 67 89 AB CD EF",
    "ULINT, 81985529216486895, LOW_WORD_FIRST, CD EF 89 AB 45 67 01 23",
    "DWORD, 2309737967, HIGH_WORD_FIRST, 89 AB CD EF",
    "DWORD, 2309737967, LOW_WORD_FIRST, CD EF 89 AB",
    "LWORD, -2, HIGH_WORD_FIRST, FF FF FF FF FF FF FF FE",
    "TIME, 8000000, HIGH_WORD_FIRST, 00 00 1F 40",
    "TIME, -1000, LOW_WORD_FIRST, FF FF FF FF"
  })
  void travelsBothWays(Type type, String value, WordOrder order, String words) {
    int count = (words.length() + 1) / 3;
    String range = "00 00 00 0" + count / 2;
    String counted = "0" + count + " " + words;

    Bench reading = one(type, order).set(HOLDING, 0, cell(type, value)).scanned();
    assertEquals("03 " + counted, reading.frames().answer("03 " + range));

    Bench writing = one(type, order);
    assertEquals("10 " + range, writing.frames().answer("10 " + range + " " + counted));
    assertEquals(cell(type, value), writing.get(HOLDING, 0));
  }

  @Test
  void aRealIsTheNearestSingle() { // 230.1 is no single; modbus section 7 gives its words
    Bench bench = one(Type.REAL, WordOrder.HIGH_WORD_FIRST);
    assertEquals("10 00 00 00 02", bench.frames().answer("10 00 00 00 02 04 43 66 19 9A"));
    assertEquals(230.1f, (float) Double.longBitsToDouble(bench.get(HOLDING, 0)));
    assertEquals("03 04 43 66 19 9A", bench.frames().answer("03 00 00 00 02"));
  }

  @ParameterizedTest(name = "{0} us reads {1}")
  @CsvSource({
    "1999, 00 00 00 01",
    "-1999, FF FF FF FF",
    "999, 00 00 00 00",
    "-999, 00 00 00 00",
    "9000000000000, 7F FF FF FF",
    "-9000000000000, 80 00 00 00"
  })
  void timeIsWholeMillisecondsTowardZeroAndSaturates(long micros, String words) {
    Bench bench = one(Type.TIME, WordOrder.HIGH_WORD_FIRST).set(HOLDING, 0, micros).scanned();
    assertEquals("03 04 " + words, bench.frames().answer("03 00 00 00 02"));
  }

  @Test
  void timeIsCheckedAgainstItsRangeInItsOwnUnit() {
    Bench bench =
        new Bench()
            .operator(HOLDING, 0, Type.TIME, WordOrder.HIGH_WORD_FIRST, 1_000_000L, 60_000_000L)
            .scanned();
    Frames frames = bench.frames();
    assertEquals("90 04", frames.answer("10 00 00 00 02 04 00 00 03 E7"));
    assertEquals("10 00 00 00 02", frames.answer("10 00 00 00 02 04 00 00 03 E8"));
    assertEquals("10 00 00 00 02", frames.answer("10 00 00 00 02 04 00 00 EA 60"));
    assertEquals("90 04", frames.answer("10 00 00 00 02 04 00 00 EA 61"));
    assertEquals(60_000_000L, bench.get(HOLDING, 0));
  }

  @Test
  void aValueThatIsNoNumberIsRefused() {
    Bench bench = one(Type.REAL, WordOrder.HIGH_WORD_FIRST);
    assertEquals("90 04", bench.frames().answer("10 00 00 00 02 04 FF C0 12 34"));
    assertEquals(0, bench.get(HOLDING, 0));
  }

  @Test
  void registersHoldBoolsAsZeroOrOne() {
    Bench bench = one(Type.BOOL, WordOrder.HIGH_WORD_FIRST).set(HOLDING, 0, 1).scanned();
    assertEquals("03 02 00 01", bench.frames().answer("03 00 00 00 01"));
  }
}
