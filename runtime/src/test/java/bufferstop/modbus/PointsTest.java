package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the project decides where the standard leaves it open: access, ranges, halves, holes. */
class PointsTest {
  private static final Table HOLDING = Table.HOLDING_REGISTER;

  private static Bench one(Type type, Long least, Long greatest) {
    return new Bench()
        .operator(HOLDING, 0, type, WordOrder.HIGH_WORD_FIRST, least, greatest)
        .scanned();
  }

  @Test
  void x38AValueOutsideThePointsRangeIs04AndNothingIsWritten() {
    Bench bench = one(Type.UINT, 0L, 100L);
    assertEquals("86 04", bench.frames().answer("06 00 00 FF FF"));
    assertEquals("86 04", bench.frames().answer("06 00 00 00 65"));
    assertEquals(0, bench.get(HOLDING, 0));
    assertEquals("06 00 00 00 64", bench.frames().answer("06 00 00 00 64"));
    assertEquals(100, bench.get(HOLDING, 0));
  }

  @Test
  void oneBadValueAmongSeveralLeavesAllUndone() {
    Bench bench =
        new Bench()
            .operator(HOLDING, 0, Type.UINT)
            .operator(HOLDING, 1, Type.UINT, WordOrder.HIGH_WORD_FIRST, 0L, 9L)
            .scanned();
    assertEquals("90 04", bench.frames().answer("10 00 00 00 02 04 00 05 00 0A"));
    assertEquals(0, bench.get(HOLDING, 0));
  }

  @Test
  void aBadAddressCountsBeforeABadValue() {
    Bench bench = one(Type.UINT, 0L, 9L);
    assertEquals("90 02", bench.frames().answer("10 00 00 00 02 04 00 FF 00 00"));
  }

  @ParameterizedTest(name = "{0} takes {1}: answer {2}, cell {3}")
  @CsvSource({
    "BOOL, 00 01, 06 00 00 00 01, 1",
    "BOOL, 00 02, 86 04, 0",
    "SINT, FF 80, 06 00 00 FF 80, -128",
    "SINT, 00 80, 86 04, 0",
    "USINT, 00 FF, 06 00 00 00 FF, 255",
    "USINT, 01 00, 86 04, 0",
    "INT, 80 00, 06 00 00 80 00, -32768",
    "UINT, 80 00, 06 00 00 80 00, 32768"
  })
  void aRegisterTakesWhatItsTypeHolds(Type type, String value, String answer, long cell) {
    Bench bench = one(type, null, null);
    assertEquals(answer, bench.frames().answer("06 00 00 " + value));
    assertEquals(cell, bench.get(HOLDING, 0));
  }

  @Test
  void halfAWideValueIsReadButNotWritten() {
    Bench bench =
        new Bench().operator(HOLDING, 10, Type.UDINT).operator(HOLDING, 12, Type.UDINT).scanned();
    bench.set(HOLDING, 10, 0x12345678L).set(HOLDING, 12, 0x9ABCDEF0L).scan();
    Frames frames = bench.frames();
    assertEquals("03 02 12 34", frames.answer("03 00 0A 00 01"));
    assertEquals("03 04 56 78 9A BC", frames.answer("03 00 0B 00 02"));
    assertEquals("86 02", frames.answer("06 00 0A 00 00"));
    assertEquals("86 02", frames.answer("06 00 0B 00 00"));
    assertEquals("90 02", frames.answer("10 00 0A 00 03 06 00 00 00 00 00 00"));
    assertEquals("90 02", frames.answer("10 00 0B 00 03 06 00 00 00 00 00 00"));
    assertEquals("96 02", frames.answer("16 00 0A 00 00 00 00"));
    assertEquals(0x12345678L, bench.get(HOLDING, 10));
    assertEquals("10 00 0A 00 02", frames.answer("10 00 0A 00 02 04 FF FF FF FE"));
    assertEquals(0xFFFFFFFEL, bench.get(HOLDING, 10));
  }

  @Test
  void readOnlyValuesAreRefusedWith02() {
    Bench bench =
        new Bench()
            .operator(Table.COIL, 0, Type.BOOL)
            .readOnly(Table.COIL, 1, Type.BOOL, WordOrder.HIGH_WORD_FIRST)
            .readOnly(HOLDING, 0, Type.UINT, WordOrder.HIGH_WORD_FIRST)
            .scanned();
    Frames frames = bench.frames();
    assertEquals("85 02", frames.answer("05 00 01 FF 00"));
    assertEquals("8F 02", frames.answer("0F 00 00 00 02 01 03"));
    assertEquals("86 02", frames.answer("06 00 00 00 01"));
    assertEquals("96 02", frames.answer("16 00 00 00 00 00 01"));
    assertEquals("97 02", frames.answer("17 00 00 00 01 00 00 00 01 02 00 01"));
    assertEquals("01 01 00", frames.answer("01 00 00 00 02"));
  }

  @Test
  void aRangeThatTouchesAHoleIs02() {
    Bench bench =
        new Bench().operator(HOLDING, 0, Type.UINT).operator(HOLDING, 2, Type.UINT).scanned();
    Frames frames = bench.frames();
    assertEquals("83 02", frames.answer("03 00 00 00 03"));
    assertEquals("83 02", frames.answer("03 00 01 00 01"));
    assertEquals("90 02", frames.answer("10 00 00 00 03 06 00 01 00 01 00 01"));
    assertEquals("03 02 00 00", frames.answer("03 00 02 00 01"));
    assertEquals(0, bench.get(HOLDING, 0));
  }

  @Test
  void aMaskWriteNeedsAPointThatTakesAnySixteenBits() {
    assertEquals("96 04", one(Type.UINT, 0L, 9L).frames().answer("16 00 00 00 00 00 01"));
    assertEquals("96 04", one(Type.BOOL, null, null).frames().answer("16 00 00 00 00 00 01"));
    Bench signed = one(Type.INT, null, null);
    assertEquals("16 00 00 00 FF 80 00", signed.frames().answer("16 00 00 00 FF 80 00"));
    assertEquals(-32768, signed.get(HOLDING, 0));
    assertEquals("16 00 00 7F FF 00 00", signed.frames().answer("16 00 00 7F FF 00 00"));
    assertEquals(0, signed.get(HOLDING, 0));
  }

  @Test
  void aPointAtTwoAddressesOfOneRequestTakesTheLater() {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL);
    String name = Bench.name(Table.COIL, 0);
    bench.again(Table.COIL, 1, name, Type.BOOL, WordOrder.HIGH_WORD_FIRST).scan();
    assertEquals("0F 00 00 00 02", bench.frames().answer("0F 00 00 00 02 01 02"));
    assertEquals(1, bench.get(Table.COIL, 0));
  }

  @Test
  void beforeTheFirstScanReadsAre04() {
    Bench bench = new Bench().operator(HOLDING, 0, Type.UINT);
    assertEquals("83 04", bench.frames().answer("03 00 00 00 01"));
  }
}
