package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Type;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Limits of each function; every table has exactly the addresses 0 to 99. Source: Modbus
 * Application Protocol V1.1b3, state diagrams of 6.1 to 6.17 and code 02 in 7 [re-read]; the bytes
 * are derived from them, X01 and X02 are printed. The rows are numbered as in the project's check
 * table X (boundary checks).
 */
abstract class Boundaries {
  private static final String ALL_COILS = "01 00 00 00 64";
  private static final String ALL_REGISTERS = "03 00 00 00 64";

  private final Bench bench = Bench.hundredOfEach();
  private Answering frames;

  /** Serves a bench in one of the ways there are. */
  abstract Answering serve(Bench bench) throws Exception;

  @BeforeEach
  void serve() throws Exception {
    frames = serve(bench);
  }

  @ParameterizedTest(name = "{0}: {1} is answered {2}")
  @CsvSource({
    "X01, 03 00 60 00 04, 03 08 00 00 00 00 00 00 00 00",
    "X02, 03 00 60 00 05, 83 02",
    "X03, 03 00 00 00 00, 83 03",
    "X04, 03 00 00 00 7E, 83 03",
    "X05, 03 00 64 00 7E, 83 03",
    "X06, 03 FF FF 00 02, 83 02",
    "X07, 03 00 64 00 01, 83 02",
    "X08, 04 00 00 00 00, 84 03",
    "X08, 04 00 00 00 7E, 84 03",
    "X08, 04 00 64 00 7E, 84 03",
    "X08, 04 FF FF 00 02, 84 02",
    "X08, 04 00 64 00 01, 84 02",
    "X09, 01 00 00 00 00, 81 03",
    "X09, 01 00 00 07 D1, 81 03",
    "X10, 02 00 00 00 00, 82 03",
    "X10, 02 00 00 07 D1, 82 03",
    "X11, 01 00 00 00 09, 01 02 00 00",
    "6.1 with most coils, 01 00 00 07 D0, 81 02",
    "6.3 with most registers, 03 00 00 00 7D, 83 02"
  })
  void readsAreCheckedInTheOrderOfTheirDiagrams(String row, String request, String answer) {
    assertEquals(answer, frames.answer(request), row);
  }

  @Test
  void x11UnusedBitsAreZeroEvenBesideCoilsThatAreOn() {
    for (int at = 9; at < 20; at++) {
      bench.set(Table.COIL, at, 1);
    }
    bench.scan();
    assertEquals("01 02 00 00", frames.answer("01 00 00 00 09"));
  }

  @ParameterizedTest(name = "{0}: {1} is answered {2} and nothing is written")
  @CsvSource({
    "X12, 05 00 00 00 01, 85 03",
    "X12, 05 00 00 FF 01, 85 03",
    "X12, 05 00 00 01 00, 85 03",
    "X12, 05 00 00 FF FF, 85 03",
    "X13, 05 00 64 12 34, 85 03",
    "X14, 05 00 64 FF 00, 85 02",
    "X15, 06 00 64 00 00, 86 02",
    "X16, 0F 00 00 00 00 00, 8F 03",
    "X17, 0F 00 00 00 09 01 FF, 8F 03",
    "X18, 0F 00 00 00 08 02 FF FF, 8F 03",
    "X19, 0F 00 60 00 05 01 1F, 8F 02",
    "X20, 10 00 00 00 00 00, 90 03",
    "X21, 10 00 00 00 02 02 00 01, 90 03",
    "X22, 10 00 00 00 01 04 00 01 00 02, 90 03",
    "X24, 10 00 62 00 03 06 00 01 00 02 00 03, 90 02",
    "X25, 16 00 64 00 00 00 00, 96 02",
    "X28, 17 00 00 00 00 00 00 00 01 02 00 01, 97 03",
    "X29, 17 00 00 00 7E 00 00 00 01 02 00 01, 97 03",
    "X30, 17 00 00 00 01 00 00 00 00 00, 97 03",
    "X31, 17 00 00 00 01 00 00 00 02 02 00 01, 97 03",
    "X32, 17 00 64 00 01 00 00 00 01 02 AB CD, 97 02",
    "X33, 17 00 00 00 01 00 64 00 01 02 AB CD, 97 02",
    "X35, 64 00 00 00 01, E4 01",
    "X35, 09, 89 01",
    "X35, 2A, AA 01",
    "X36, 00, 80 01",
    "X36, 83 00 00 00 01, 83 01",
    "X37, 03 00 00 00, 83 03",
    "X37, 03 00 00 00 01 00, 83 03",
    "X37 for 5, 05 00 00 FF, 85 03",
    "X37 for 6, 06 00 00 00 01 00, 86 03",
    "X37 for 15, 0F 00 00 00, 8F 03",
    "X37 for 16, 10 00 00 00 01 02 00, 90 03",
    "X37 for 22, 16 00 00 00 00 12, 96 03",
    "X37 for 23, 17 00 00 00 01 00 00 00 01, 97 03",
    "2.5 without serial functions, 07, 87 01",
    "2.5 without serial functions, 08 00 00 A5 37, 88 01",
    "2.5 without serial functions, 0B, 8B 01",
    "2.5 without serial functions, 0C, 8C 01",
    "2.5 without serial functions, 11, 91 01",
    "2.5 without file records, 14 07 06 00 04 00 01 00 02, 94 01",
    "E24 without queues, 18 04 DE, 98 01"
  })
  void refusedRequestsWriteNothing(String row, String request, String answer) {
    assertEquals(answer, frames.answer(request), row);
    bench.scan();
    assertEquals("01 0D" + " 00".repeat(13), frames.answer(ALL_COILS));
    assertEquals("03 C8" + " 00".repeat(200), frames.answer(ALL_REGISTERS));
  }

  @ParameterizedTest(name = "{0} data bytes for {1}")
  @CsvSource({"248, 10 00 00 00 7C F8, 90 03", "247, 0F 00 00 07 B1 F7, 8F 03"})
  void x23OneMoreThanAFrameHoldsIsAWrongQuantity(int bytes, String head, String answer) {
    assertEquals(answer, frames.answer(head + " 00".repeat(bytes)));
  }

  @Test
  void theLargestLegalWritesAreDone() throws Exception { // 2.1
    Bench wide =
        new Bench()
            .operators(Table.COIL, 0, 1967, Type.BOOL)
            .operators(Table.HOLDING_REGISTER, 0, 124, Type.UINT)
            .scanned();
    Answering large = serve(wide);
    assertEquals("0F 00 00 07 B0", large.answer("0F 00 00 07 B0 F6" + " FF".repeat(246)));
    assertEquals(1, wide.get(Table.COIL, 1967));
    assertEquals("10 00 00 00 7B", large.answer("10 00 00 00 7B F6" + " 12 34".repeat(123)));
    assertEquals(0x1234, wide.get(Table.HOLDING_REGISTER, 122));
    assertEquals(
        "17 FA" + " 43 21".repeat(121) + " 12 34".repeat(2) + " 00 00".repeat(2),
        large.answer("17 00 00 00 7D 00 00 00 79 F2" + " 43 21".repeat(121)));
  }

  @Test
  void x26AMaskOfOnesKeepsEveryBit() {
    bench.set(Table.HOLDING_REGISTER, 0, 0x5A5A);
    assertEquals("16 00 00 FF FF 12 34", frames.answer("16 00 00 FF FF 12 34"));
    assertEquals(0x5A5A, bench.get(Table.HOLDING_REGISTER, 0));
  }

  @Test
  void x27AMaskOfZerosGivesTheOrMask() {
    bench.set(Table.HOLDING_REGISTER, 0, 0x5A5A);
    assertEquals("16 00 00 00 00 12 34", frames.answer("16 00 00 00 00 12 34"));
    assertEquals(0x1234, bench.get(Table.HOLDING_REGISTER, 0));
  }

  @Test
  void x34WritesBeforeItReads() {
    assertEquals("17 02 AB CD", frames.answer("17 00 05 00 01 00 05 00 01 02 AB CD"));
  }
}
