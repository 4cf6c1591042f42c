package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Type;
import org.junit.jupiter.api.Test;

/**
 * The printed examples. Source: Modbus Application Protocol V1.1b3, the section named at each
 * [re-read].
 */
abstract class WorkedExamples {

  /** Serves a bench in one of the ways there are. */
  abstract Answering serve(Bench bench) throws Exception;

  private static Bench bits(Table table, int from, String values) {
    Bench bench = new Bench();
    String[] each = values.split(" ");
    for (int i = 0; i < each.length; i++) {
      bench.operator(table, from + i, Type.BOOL).set(table, from + i, Long.parseLong(each[i]));
    }
    return bench.scanned();
  }

  private static Bench registers(Table table, int from, String values) {
    Bench bench = new Bench();
    String[] each = values.split(" ");
    for (int i = 0; i < each.length; i++) {
      bench.operator(table, from + i, Type.UINT).set(table, from + i, Long.parseLong(each[i], 16));
    }
    return bench.scanned();
  }

  @Test
  void e01ReadsNineteenCoils() throws Exception { // 6.1
    Bench bench = bits(Table.COIL, 19, "1 0 1 1 0 0 1 1 1 1 0 1 0 1 1 0 1 0 1");
    assertEquals("01 03 CD 6B 05", serve(bench).answer("01 00 13 00 13"));
  }

  @Test
  void e02ReadsTwentyTwoDiscreteInputs() throws Exception { // 6.2
    Bench bench = bits(Table.DISCRETE_INPUT, 196, "0 0 1 1 0 1 0 1 1 1 0 1 1 0 1 1 1 0 1 0 1 1");
    assertEquals("02 03 AC DB 35", serve(bench).answer("02 00 C4 00 16"));
  }

  @Test
  void e03ReadsThreeHoldingRegisters() throws Exception { // 6.3
    Bench bench = registers(Table.HOLDING_REGISTER, 107, "022B 0000 0064");
    assertEquals("03 06 02 2B 00 00 00 64", serve(bench).answer("03 00 6B 00 03"));
  }

  @Test
  void e04ReadsOneInputRegister() throws Exception { // 6.4
    Bench bench = registers(Table.INPUT_REGISTER, 8, "000A");
    assertEquals("04 02 00 0A", serve(bench).answer("04 00 08 00 01"));
  }

  @Test
  void e05SwitchesACoilOn() throws Exception { // 6.5
    Bench bench = bits(Table.COIL, 172, "0");
    assertEquals("05 00 AC FF 00", serve(bench).answer("05 00 AC FF 00"));
    assertEquals(1, bench.get(Table.COIL, 172));
  }

  @Test
  void e06WritesOneRegister() throws Exception { // 6.6
    Bench bench = registers(Table.HOLDING_REGISTER, 1, "0000");
    assertEquals("06 00 01 00 03", serve(bench).answer("06 00 01 00 03"));
    assertEquals(3, bench.get(Table.HOLDING_REGISTER, 1));
  }

  @Test
  void e15WritesTenCoils() throws Exception { // 6.11
    Bench bench = bits(Table.COIL, 19, "0 0 0 0 0 0 0 0 0 1");
    Answering frames = serve(bench);
    assertEquals("0F 00 13 00 0A", frames.answer("0F 00 13 00 0A 02 CD 01"));
    assertEquals("01 02 CD 01", frames.answer("01 00 13 00 0A"));
    assertEquals(1, bench.get(Table.COIL, 19));
    assertEquals(0, bench.get(Table.COIL, 28));
  }

  @Test
  void e16WritesTwoRegisters() throws Exception { // 6.12
    Bench bench = registers(Table.HOLDING_REGISTER, 1, "0000 0000");
    assertEquals("10 00 01 00 02", serve(bench).answer("10 00 01 00 02 04 00 0A 01 02"));
    assertEquals(0x000A, bench.get(Table.HOLDING_REGISTER, 1));
    assertEquals(0x0102, bench.get(Table.HOLDING_REGISTER, 2));
  }

  @Test
  void e22WritesUnderAMask() throws Exception { // 6.16
    Bench bench = registers(Table.HOLDING_REGISTER, 4, "0012");
    assertEquals("16 00 04 00 F2 00 25", serve(bench).answer("16 00 04 00 F2 00 25"));
    assertEquals(0x0017, bench.get(Table.HOLDING_REGISTER, 4));
  }

  @Test
  void e23WritesThreeAndReadsSix() throws Exception { // 6.17
    Bench bench =
        registers(
            Table.HOLDING_REGISTER, 3, "00FE 0ACD 0001 0003 000D 00FF 0 0 0 0 0 0000 0000 0000");
    assertEquals(
        "17 0C 00 FE 0A CD 00 01 00 03 00 0D 00 FF",
        serve(bench).answer("17 00 03 00 06 00 0E 00 03 06 00 FF 00 FF 00 FF"));
    for (int at = 14; at <= 16; at++) {
      assertEquals(0x00FF, bench.get(Table.HOLDING_REGISTER, at));
    }
  }

  @Test
  void exRefusesACoilThatIsNotThere() throws Exception { // 7
    Bench bench = bits(Table.COIL, 19, "1");
    assertEquals("81 02", serve(bench).answer("01 04 A1 00 01"));
  }
}
