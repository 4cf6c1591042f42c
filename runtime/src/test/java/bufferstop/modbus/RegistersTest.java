package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Serving.Permission;
import bufferstop.model.Serving.Sections;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What may stand in a register besides a value as it is. */
class RegistersTest {
  private static final Table HOLDING = Table.HOLDING_REGISTER;

  private static Bench one(Type type, Coding coding) {
    return new Bench().coded(HOLDING, 0, type, coding, null, null).scanned();
  }

  private static long bits(Type type, double value) {
    return type.isReal() ? Double.doubleToRawLongBits(value) : (long) value;
  }

  /**
   * The four orders of a 32-bit value. Source: project's table 7; the words of 123456.0 high first
   * are those of a published example, the rest follow from IEEE 754 [computed].
   */
  @ParameterizedTest(name = "{1} as {0}, {2}, {3}, is {4}")
  @CsvSource({
    "REAL, 123456.0, HIGH_WORD_FIRST, HIGH_BYTE_FIRST, 47 F1 20 00",
    "REAL, 123456.0, LOW_WORD_FIRST, HIGH_BYTE_FIRST, 20 00 47 F1",
    "REAL, 123456.0, HIGH_WORD_FIRST, LOW_BYTE_FIRST, F1 47 00 20",
    "REAL, 123456.0, LOW_WORD_FIRST, LOW_BYTE_FIRST, 00 20 F1 47",
    "REAL, -1.5, HIGH_WORD_FIRST, LOW_BYTE_FIRST, C0 BF 00 00",
    "REAL, -1.5, LOW_WORD_FIRST, LOW_BYTE_FIRST, 00 00 C0 BF",
    "UDINT, 123456789, HIGH_WORD_FIRST, HIGH_BYTE_FIRST, 07 5B CD 15",
    "UDINT, 123456789, LOW_WORD_FIRST, HIGH_BYTE_FIRST, CD 15 07 5B",
    "UDINT, 123456789, HIGH_WORD_FIRST, LOW_BYTE_FIRST, 5B 07 15 CD",
    "UDINT, 123456789, LOW_WORD_FIRST, LOW_BYTE_FIRST, 15 CD 5B 07",
    "DINT, -123456, HIGH_WORD_FIRST, LOW_BYTE_FIRST, FE FF C0 1D",
    "DINT, -123456, LOW_WORD_FIRST, LOW_BYTE_FIRST, C0 1D FE FF"
  })
  void ordersOfWordsAndBytes(
      Type type, double value, WordOrder words, ByteOrder bytes, String registers) {
    Bench bench = one(type, new Coding(words, bytes, null));
    bench.set(HOLDING, 0, bits(type, value)).scan();
    assertEquals("03 04 " + registers, bench.frames().answer("03 00 00 00 02"));
    bench.set(HOLDING, 0, 0).scan();
    assertEquals("10 00 00 00 02", bench.frames().answer("10 00 00 00 02 04 " + registers));
    assertEquals(bits(type, value), bench.get(HOLDING, 0));
  }

  @Test
  void aMaskFollowsTheOrderOfBytes() {
    Bench bench =
        one(Type.UINT, new Coding(WordOrder.HIGH_WORD_FIRST, ByteOrder.LOW_BYTE_FIRST, null));
    bench.set(HOLDING, 0, 0x1234).scan();
    assertEquals("03 02 34 12", bench.frames().answer("03 00 00 00 01"));
    assertEquals("16 00 00 00 FF FF 00", bench.frames().answer("16 00 00 00 FF FF 00"));
    assertEquals("03 02 FF 12", bench.frames().answer("03 00 00 00 01"));
    assertEquals(0x12FF, bench.get(HOLDING, 0));
  }

  private static Coding scaled(Type as, double factor, double least, double most, Long sentinel) {
    Scale scale = new Scale(as, factor, least, most, sentinel);
    return new Coding(WordOrder.HIGH_WORD_FIRST, ByteOrder.HIGH_BYTE_FIRST, scale);
  }

  /** Values of a meter. Source: SunSpec models 201 and 211 [re-read] for types and sentinels. */
  @ParameterizedTest(name = "{0} V in steps of 0.1 as UINT is {1}")
  @CsvSource({
    "230.1, 08 FD",
    "0, 00 00",
    "230.14, 08 FD",
    "230.16, 08 FE",
    "6553.4, FF FE",
    "6553.6, FF FF",
    "-0.1, FF FF",
    "NaN, FF FF"
  })
  void aQuantityIsAWholeNumberOfSteps(double value, String register) {
    Bench bench = one(Type.REAL, scaled(Type.UINT, 0.1, 0, 6553.4, 0xFFFFL));
    bench.set(HOLDING, 0, bits(Type.REAL, value)).scan();
    assertEquals("03 02 " + register, bench.frames().answer("03 00 00 00 01"));
  }

  @ParameterizedTest(name = "without a sentinel {0} is {1}")
  @CsvSource({"-5, FF CE", "-6, FF CE", "40, 01 90", "1000, 01 90", "NaN, 00 00", "2.5, 00 19"})
  void withoutASentinelTheNearerBoundShows(double value, String register) {
    Bench bench = one(Type.LREAL, scaled(Type.INT, 0.1, -5, 40, null));
    bench.set(HOLDING, 0, bits(Type.LREAL, value)).scan();
    assertEquals("03 02 " + register, bench.frames().answer("03 00 00 00 01"));
  }

  @ParameterizedTest(name = "{0} is answered {1} and gives {2}")
  @CsvSource({
    "06 00 00 00 7B, 06 00 00 00 7B, 12.3",
    "06 00 00 FF CE, 06 00 00 FF CE, -5",
    "06 00 00 FF CD, 86 04, 1",
    "06 00 00 01 91, 86 04, 1",
    "06 00 00 80 00, 86 04, 1"
  })
  void aWrittenNumberIsTheNearestValue(String request, String answer, double value) {
    Bench bench = one(Type.LREAL, scaled(Type.INT, 0.1, -5, 40, -32768L));
    bench.set(HOLDING, 0, bits(Type.LREAL, 1)).scan();
    assertEquals(answer, bench.frames().answer(request));
    assertEquals(value, Double.longBitsToDouble(bench.get(HOLDING, 0)), 1e-12);
  }

  /** IEEE 754 words worked out apart from this code; an LREAL shows as the nearest REAL. */
  @ParameterizedTest(name = "{0} as REAL in steps of {1} is {2}")
  @CsvSource({
    "230.1, 1, 43 66 19 9A",
    "-2830, 1, C5 30 E0 00",
    "123456789, 1, 4C EB 79 A3",
    "12.34, 0.01, 44 9A 40 00",
    "1E300, 1, 7F 7F FF FF",
    "NaN, 1, 00 00 00 00"
  })
  void aQuantityMayBeAReal(double value, double factor, String words) {
    double most = Float.MAX_VALUE * Math.min(1, factor);
    Bench bench = one(Type.LREAL, scaled(Type.REAL, factor, -most, most, null));
    bench.set(HOLDING, 0, bits(Type.LREAL, value)).scan();
    assertEquals("03 04 " + words, bench.frames().answer("03 00 00 00 02"));
  }

  @Test
  void aWrittenRealIsTakenWithItsFactorAndNoNumberIsRefused() {
    Bench bench = one(Type.LREAL, scaled(Type.REAL, 0.5, -100, 100, null));
    String write = "10 00 00 00 02 04 ";
    assertEquals("10 00 00 00 02", bench.frames().answer(write + "40 40 00 00")); // 3.0
    assertEquals(1.5, Double.longBitsToDouble(bench.get(HOLDING, 0)));
    assertEquals("90 04", bench.frames().answer(write + "7F C0 00 00")); // no number
    assertEquals("90 04", bench.frames().answer(write + "43 C8 80 00")); // 401 halves
    assertEquals(1.5, Double.longBitsToDouble(bench.get(HOLDING, 0)));
  }

  @Test
  void aTimeIsScaledInMilliseconds() {
    Bench bench = one(Type.TIME, scaled(Type.UINT, 100, 0, 6_553_400, null));
    bench.set(HOLDING, 0, 8_000_000).scan();
    assertEquals("03 02 00 50", bench.frames().answer("03 00 00 00 01"));
    assertEquals("06 00 00 00 0F", bench.frames().answer("06 00 00 00 0F"));
    assertEquals(1_500_000, bench.get(HOLDING, 0));
  }

  @Test
  void anIntegerTakesOnlyNumbersThatAreAWholeValue() {
    Bench bench = one(Type.INT, scaled(Type.INT, 0.5, -100, 100, null));
    assertEquals("86 04", bench.frames().answer("06 00 00 00 05"));
    assertEquals("06 00 00 00 06", bench.frames().answer("06 00 00 00 06"));
    assertEquals(3, bench.get(HOLDING, 0));
  }

  @Test
  void thePointsOwnRangeHoldsToo() {
    Bench bench =
        new Bench()
            .coded(HOLDING, 0, Type.INT, scaled(Type.INT, 10, -100, 100, null), 0L, 50L)
            .scanned();
    assertEquals("86 04", bench.frames().answer("06 00 00 00 06"));
    assertEquals("06 00 00 00 05", bench.frames().answer("06 00 00 00 05"));
    assertEquals(50, bench.get(HOLDING, 0));
    assertEquals("96 04", bench.frames().answer("16 00 00 00 00 00 01"));
  }

  private static Bench threeBits() {
    return new Bench()
        .bit(HOLDING, 4, 0, true)
        .bit(HOLDING, 4, 3, true)
        .bit(HOLDING, 4, 15, true)
        .scanned();
  }

  private static long bit(Bench bench, int bit) {
    return bench.get(Table.COIL, 400 + bit);
  }

  @Test
  void bitsOfARegisterAreReadTogether() {
    Bench bench = threeBits();
    assertEquals("03 02 00 00", bench.frames().answer("03 00 04 00 01"));
    bench.set(Table.COIL, 403, 1).set(Table.COIL, 415, 1).scan();
    assertEquals("03 02 80 08", bench.frames().answer("03 00 04 00 01"));
  }

  @Test
  void bitsOfARegisterAreWrittenTogetherAndOnlyThoseThatStandForSomething() {
    Bench bench = threeBits();
    assertEquals("06 00 04 80 01", bench.frames().answer("06 00 04 80 01"));
    assertEquals(1, bit(bench, 0));
    assertEquals(0, bit(bench, 3));
    assertEquals(1, bit(bench, 15));
    assertEquals("86 04", bench.frames().answer("06 00 04 00 02"));
    assertEquals(1, bit(bench, 0));
  }

  @Test
  void aMaskChangesSingleBits() {
    Bench bench = threeBits();
    assertEquals("16 00 04 FF F7 00 08", bench.frames().answer("16 00 04 FF F7 00 08"));
    assertEquals("03 02 00 08", bench.frames().answer("03 00 04 00 01"));
    assertEquals("16 00 04 FF F7 00 00", bench.frames().answer("16 00 04 FF F7 00 00"));
    assertEquals("03 02 00 00", bench.frames().answer("03 00 04 00 01"));
    assertEquals("96 04", bench.frames().answer("16 00 04 FF EF 00 10"));
  }

  @Test
  void aRegisterWithABitThatIsOnlyReadTakesAMaskThatLeavesItAlone() {
    Bench bench = new Bench().bit(HOLDING, 4, 0, true).bit(HOLDING, 4, 1, false).scanned();
    assertEquals("86 02", bench.frames().answer("06 00 04 00 01"));
    assertEquals("96 02", bench.frames().answer("16 00 04 FF FD 00 02"));
    assertEquals("16 00 04 FF FE 00 01", bench.frames().answer("16 00 04 FF FE 00 01"));
    assertEquals(1, bit(bench, 0));
  }

  @Test
  void aDeclaredGapReadsZeroAndTakesNoWrite() {
    Bench bench =
        new Bench()
            .operator(HOLDING, 0, Type.UINT)
            .gap(HOLDING, 1, 3)
            .operator(HOLDING, 4, Type.UINT)
            .operator(Table.COIL, 0, Type.BOOL)
            .gap(Table.COIL, 1, 9)
            .operator(Table.COIL, 10, Type.BOOL);
    bench.set(HOLDING, 4, 5).set(Table.COIL, 10, 1).set(Table.COIL, 0, 1).scan();
    Frames frames = bench.frames();
    assertEquals("03 0A 00 00 00 00 00 00 00 00 00 05", frames.answer("03 00 00 00 05"));
    assertEquals("01 02 01 04", frames.answer("01 00 00 00 0B"));
    assertEquals("83 02", frames.answer("03 00 00 00 06"));
    assertEquals("86 02", frames.answer("06 00 01 00 00"));
    assertEquals("90 02", frames.answer("10 00 00 00 02 04 00 01 00 00"));
    assertEquals("96 02", frames.answer("16 00 01 FF FF 00 00"));
    assertEquals("8F 02", frames.answer("0F 00 00 00 02 01 01"));
    assertEquals(0, bench.get(HOLDING, 0));
  }

  /** Source of the code: Modbus/TCP Security Protocol Specification v36, R-31 [re-read]. */
  @Test
  void sectionsDecideWhatAClientMayReadAndWrite() {
    Bench bench =
        new Bench()
            .section("state")
            .operator(HOLDING, 0, Type.UINT)
            .section("settings")
            .operator(HOLDING, 1, Type.UINT)
            .section("")
            .operator(HOLDING, 2, Type.UINT)
            .scanned();
    Sections state = new Sections(false, List.of("state"));
    Sections both = new Sections(false, List.of("state", "settings"));
    Frames frames = bench.frames().as(new Permission(both, state));
    assertEquals("03 04 00 00 00 00", frames.answer("03 00 00 00 02"));
    assertEquals("83 01", frames.answer("03 00 00 00 03"));
    assertEquals("83 02", frames.answer("03 00 00 00 04"));
    assertEquals("06 00 00 00 07", frames.answer("06 00 00 00 07"));
    assertEquals("86 01", frames.answer("06 00 01 00 07"));
    assertEquals("90 01", frames.answer("10 00 00 00 02 04 00 01 00 01"));
    assertEquals("96 01", frames.answer("16 00 01 00 00 00 01"));
    assertEquals("97 01", frames.answer("17 00 00 00 01 00 01 00 01 02 00 01"));
    assertEquals("97 01", frames.answer("17 00 02 00 01 00 00 00 01 02 00 01"));
    assertEquals(7, bench.get(HOLDING, 0));
    Frames all = bench.frames().as(Permission.ALL);
    assertEquals("03 06 00 07 00 00 00 00", all.answer("03 00 00 00 03"));
  }
}
