package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Type;
import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Header fields of an answer. Source: Modbus Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3,
 * 4.4.1.2, 4.4.2.5 [re-read].
 */
class UnitsTest {
  private final Frames frames = Bench.hundredOfEach().frames();

  @ParameterizedTest(name = "unit {0}")
  @ValueSource(ints = {Bench.UNIT, 0x00, 0xFF})
  void u1U2TheUnitOfTheMapAndBothDirectOnesAreAnsweredUnderTheirOwnNumber(int unit) {
    byte[] response = frames.response(1, unit, Bench.bytes("03 00 00 00 01"));
    assertEquals(3, response[Exchange.FUNCTION_AT]);
    assertEquals(unit, response[Exchange.HEADER] & 0xFF);
  }

  @ParameterizedTest(name = "unit {0}: {1} is answered {2}")
  @CsvSource({
    "2, 03 00 00 00 01, 83 0A",
    "247, 06 00 00 00 01, 86 0A",
    "254, 64, E4 0A",
    "128, 03 00 00 00 00, 83 0A"
  })
  void u6AnotherUnitIsAPathThatDoesNotExistWhateverIsAsked(int unit, String pdu, String answer) {
    assertEquals(answer, frames.answer(unit, pdu));
  }

  @ParameterizedTest(name = "transaction {0}")
  @ValueSource(ints = {0x0000, 0x0001, 0x7FFF, 0x8000, 0xFFFF})
  void t1TransactionsAreEchoedInNormalAndExceptionAnswers(int transaction) {
    byte[] normal = frames.response(transaction, 1, Bench.bytes("03 00 00 00 01"));
    assertEquals(transaction, PduCheck.word(normal, 0));
    byte[] exception = frames.response(transaction, 1, Bench.bytes("64"));
    assertEquals(transaction, PduCheck.word(exception, 0));
  }

  @Test
  void t8APduOverTheLimitIs03WhateverItsFunction() {
    assertEquals("83 03", frames.answer("03 00 00 00 01" + " 00".repeat(249)));
    assertEquals("E4 03", frames.answer("64" + " 00".repeat(298)));
  }

  @Test
  void eachUnitHasItsOwnMapItsOwnWritesAndItsOwnPublications() throws IOException {
    Bench controller = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();
    Bench panel = new Bench().operator(Table.COIL, 9, Type.BOOL).scanned();
    try (ModbusServer server =
            new ModbusServer(
                "hmi",
                List.of(controller.unit(1), panel.unit(7)),
                "127.0.0.1",
                0,
                Limits.STANDARD);
        RunningScans scans = new RunningScans(controller, panel)) {
      scans.begin();
      server.start();
      try (Client client = new Client(server.port())) {
        assertEquals("05 00 09 FF 00", client.answer(7, "05 00 09 FF 00"));
        assertEquals("01 01 01", client.answer(7, "01 00 09 00 01"));
        assertEquals("81 02", client.answer(7, "01 00 00 00 01"));
        assertEquals("01 01 00", client.answer(1, "01 00 00 00 01"));
        assertEquals("81 02", client.answer(0xFF, "01 00 09 00 01"));
        assertEquals("01 01 00", client.answer(0, "01 00 00 00 01"));
        assertEquals("81 0A", client.answer(2, "01 00 00 00 01"));
      }
    }
    assertEquals(1, panel.get(Table.COIL, 9));
  }

  @Test
  void twoUnitsOfOneIdentifierAreAMistake() {
    Bench bench = Bench.hundredOfEach();
    List<Unit> twice = List.of(bench.unit(3), bench.unit(3));
    assertThrows(IllegalArgumentException.class, () -> new Units(twice));
    assertThrows(IllegalArgumentException.class, () -> bench.unit(256));
  }
}
