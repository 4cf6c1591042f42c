package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * From a stream of bytes to frames. Source: Modbus Messaging on TCP/IP Implementation Guide V1.0b,
 * 3.1, 4.2.1.1 and Figure 16 [re-read]; T7 to T11 are the project's choice.
 */
class StreamsTest {
  private static final String GOOD = "00 07 00 00 00 06 01 03 00 00 00 01";
  private static final String ANSWER = "00 07 00 00 00 05 01 03 02 00 00";

  private RunningBench running;
  private Client client;

  @BeforeEach
  void connect() throws IOException {
    running = new RunningBench(Bench.hundredOfEach());
    client = running.client();
  }

  @AfterEach
  void close() throws IOException {
    running.close();
  }

  @Test
  void thePrintedFrameIsAnsweredWithItsHeader() throws IOException { // 4.4.1.2
    client.sendHex("15 01 00 00 00 06 FF 03 00 04 00 01");
    assertEquals("15 01 00 00 00 05 FF 03 02 00 00", client.receiveHex());
  }

  @ParameterizedTest(name = "transaction {0}")
  @ValueSource(strings = {"00 00", "00 01", "7F FF", "80 00", "FF FF"})
  void t1TransactionsAreEchoed(String transaction) throws IOException {
    client.sendHex(transaction + " 00 00 00 06 01 06 00 00 00 01");
    assertEquals(transaction + " 00 00 00 06 01 06 00 00 00 01", client.receiveHex());
    client.sendHex(transaction + " 00 00 00 02 01 64");
    assertEquals(transaction + " 00 00 00 03 01 E4 01", client.receiveHex());
  }

  @Test
  void t2AnotherProtocolIsPassedOverInSilence() throws IOException {
    client.sendHex("00 01 00 01 00 06 01 03 00 00 00 01" + GOOD);
    assertEquals(ANSWER, client.receiveHex());
  }

  @Test
  void t3AFrameMayBeCutAnywhere() throws IOException {
    byte[] frame = Bench.bytes(GOOD);
    for (int cut = 1; cut < frame.length; cut++) {
      client.send(Arrays.copyOf(frame, cut));
      client.send(Arrays.copyOfRange(frame, cut, frame.length));
      assertEquals(ANSWER, client.receiveHex(), "cut after " + cut);
    }
  }

  @Test
  void t3AFrameMayComeByteByByte() throws IOException {
    for (byte each : Bench.bytes(GOOD)) {
      client.send(new byte[] {each});
    }
    assertEquals(ANSWER, client.receiveHex());
  }

  @Test
  void t4T5SeveralFramesInOneSegmentAreAnsweredInOrder() throws IOException {
    ByteArrayOutputStream segment = new ByteArrayOutputStream();
    for (int i = 0; i < 16; i++) {
      segment.write(Bench.frame(i, Bench.UNIT, Bench.bytes("06 00 00 00 0" + i % 8)));
      segment.write(Bench.frame(100 + i, Bench.UNIT, Bench.bytes("03 00 00 00 01")));
    }
    client.send(segment.toByteArray());
    for (int i = 0; i < 16; i++) {
      assertEquals(i, PduCheck.word(client.receive(), 0));
      byte[] read = client.receive();
      assertEquals(100 + i, PduCheck.word(read, 0));
      assertEquals(i % 8, PduCheck.word(read, 9));
    }
  }

  @Test
  void s12HeaderUnitFunctionAndServiceAreLookedAtInThatOrder() throws IOException {
    client.sendHex("00 01 00 01 00 06 09 64 00 00 00 01"); // all wrong: the header is first
    client.sendHex("00 02 00 00 00 06 09 64 00 00 00 01"); // then the unit
    assertEquals("00 02 00 00 00 03 09 E4 0A", client.receiveHex());
    client.sendHex("00 03 00 00 00 06 01 64 00 00 00 01"); // then the function
    assertEquals("00 03 00 00 00 03 01 E4 01", client.receiveHex());
    client.sendHex("00 04 00 00 00 06 01 03 FF FF 00 00"); // then quantity before address
    assertEquals("00 04 00 00 00 03 01 83 03", client.receiveHex());
  }

  @ParameterizedTest(name = "length {0}")
  @ValueSource(strings = {"00 00", "00 01", "01 2D", "FF FF"})
  void t7T9AStreamThatCannotBeModbusIsClosedWithoutAnAnswer(String length) throws IOException {
    client.sendHex("00 01 00 00 " + length);
    assertTrue(client.isClosedByServer());
    try (Client other = running.client()) {
      assertEquals("03 02 00 00", other.answer("03 00 00 00 01"));
    }
  }

  @ParameterizedTest(name = "length {0}")
  @ValueSource(ints = {255, 300})
  void t8ALittleTooLongIs03AndTheConnectionStays(int length) throws IOException {
    byte[] pdu = new byte[length - 1];
    pdu[0] = 0x10;
    client.send(Bench.frame(9, Bench.UNIT, pdu));
    assertEquals("00 09 00 00 00 03 01 90 03", client.receiveHex());
    client.sendHex(GOOD);
    assertEquals(ANSWER, client.receiveHex());
  }

  @Test
  void t10HalfAHeaderHoldsUpNobodyElse() throws IOException {
    client.sendHex("00 01 00");
    try (Client other = running.client()) {
      assertEquals("03 02 00 00", other.answer("03 00 00 00 01"));
    }
  }

  @Test
  void t11AClientThatEndsSendingStillGetsItsAnswer() throws IOException {
    client.sendHex("00 01 00 00 00 06 01 06 00 00 00 05");
    client.endSending();
    assertEquals("00 01 00 00 00 06 01 06 00 00 00 05", client.receiveHex());
    assertTrue(client.isClosedByServer());
  }

  @Test
  void s6AnswersToOneSegmentDoNotWaitForTheClientsAcknowledgement() throws IOException {
    // with Nagle's algorithm against a delayed acknowledgement each round takes some 40 ms
    byte[] three = Bench.bytes(GOOD + GOOD + GOOD);
    int rounds = 50;
    long start = System.nanoTime();
    for (int i = 0; i < rounds; i++) {
      client.send(three);
      client.receive();
      client.receive();
      client.receive();
    }
    long millis = TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - start);
    assertTrue(millis < rounds * 20, millis + " ms");
  }

  @Test
  void connectionsSurviveUnknownFunctions() throws IOException { // X35
    for (String function : new String[] {"64 00 00 00 01", "09", "2A", "00", "83 00 00 00 01"}) {
      client.answer(function);
    }
    assertEquals("03 02 00 00", client.answer("03 00 00 00 01"));
  }

  @Test
  void aClientThatLeavesInTheMiddleIsForgotten() throws IOException {
    client.sendHex("00 01 00 00 00 06 01");
    client.close();
    Awaitility.await().until(() -> running.server.clients() == 0);
  }
}
