package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;
import org.junit.jupiter.api.Test;

/** What the loader should have found before. */
class MapImageTest {
  private static final WordOrder ORDER = WordOrder.HIGH_WORD_FIRST;

  private static String refusal(Bench bench) {
    return assertThrows(IllegalArgumentException.class, bench::image).getMessage();
  }

  @Test
  void refusesNamesThatMeanNothing() {
    Bench bench = new Bench().again(Table.COIL, 0, "nobody", Type.BOOL, ORDER);
    assertEquals("no value named `nobody`", refusal(bench));
  }

  @Test
  void refusesAnotherTypeThanTheValues() {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL);
    bench.again(Table.HOLDING_REGISTER, 0, "coil_0", Type.INT, ORDER);
    assertEquals("`coil_0` is BOOL, mapped as INT", refusal(bench));
  }

  @Test
  void refusesAWideValueInABit() {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.INT);
    assertEquals("`coil_0` is INT, which does not fit one bit", refusal(bench));
  }

  @Test
  void refusesOverlaps() {
    Bench bench =
        new Bench()
            .operator(Table.HOLDING_REGISTER, 11, Type.UDINT)
            .operator(Table.HOLDING_REGISTER, 12, Type.UINT);
    assertEquals("holding_register 12 of map `hmi` is taken twice", refusal(bench));
  }

  @Test
  void refusesWhatReachesBeyondTheLastAddress() {
    Bench bench = new Bench().operator(Table.HOLDING_REGISTER, 65_535, Type.UDINT);
    assertEquals("`holding_register_65535` lies outside addresses 0 to 65535", refusal(bench));
  }

  @Test
  void theLastAddressIsServed() {
    Bench bench = new Bench().operator(Table.HOLDING_REGISTER, 65_535, Type.UINT).scanned();
    assertEquals("06 FF FF 12 34", bench.frames().answer("06 FF FF 12 34"));
    assertEquals("03 02 12 34", bench.frames().answer("03 FF FF 00 01"));
  }

  @Test
  void anEmptyMapHasNoAddress() {
    assertEquals("83 02", new Bench().scanned().frames().answer("03 00 00 00 01"));
  }
}
