package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Type;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What a server does wrong is never a value. Source: Modbus Messaging on TCP/IP Implementation
 * Guide V1.0b, 4.4.1.1 to 4.4.1.4 [re-read], rules C1 to C8 of the reference.
 */
class ClientConnectionTest {
  private static final Position HERE = Position.ofFile("test");
  private static final int UNIT = 7;
  private static final long ANSWER = 400_000;

  private CrookedServer server;
  private ClientConnection connection;
  private final byte[] pdu = new byte[Exchange.MOST_PDU];

  @BeforeEach
  void connect() throws IOException {
    server = new CrookedServer();
    connection = new ClientConnection("127.0.0.1", server.port(), ANSWER);
  }

  @AfterEach
  void end() throws IOException {
    connection.close();
    server.close();
  }

  private static Entry register(int address) {
    return new Entry(
        new Name("r" + address, HERE),
        Table.HOLDING_REGISTER,
        address,
        Type.UINT,
        WordOrder.HIGH_WORD_FIRST,
        HERE);
  }

  /** Reads two registers from an address on; the values before are those of a round before. */
  private long[] read(int address) throws IOException, Refusal {
    List<Entry> entries = List.of(register(address), register(address + 1));
    ReadRow row = new ReadRow(AddressRow.of(entries, List.of(), 2000, 125).get(0), entries);
    long[] values = {-1, -1};
    row.take(connection, connection.ask(UNIT, pdu, row.question(pdu), ANSWER), values);
    return values;
  }

  @Test
  void aGoodAnswerIsTaken() throws Exception {
    assertEquals(List.of(300L, 303L), boxed(read(100)));
    assertEquals(List.of(0L, 3L), boxed(read(CrookedServer.GOOD)));
  }

  private static List<Long> boxed(long[] values) {
    return List.of(values[0], values[1]);
  }

  @ParameterizedTest(name = "fault {0}")
  @ValueSource(
      ints = {
        CrookedServer.NEXT_TRANSACTION,
        CrookedServer.OTHER_FUNCTION,
        CrookedServer.TOO_FEW,
        CrookedServer.PROTOCOL_FIVE,
        CrookedServer.CLOSES,
        CrookedServer.SILENT,
        CrookedServer.OTHER_UNIT,
        CrookedServer.WRONG_COUNT,
        CrookedServer.ABSURD_LENGTH
      })
  void whatIsWrongIsAnErrorAndNoValue(int address) throws Exception {
    assertThrows(IOException.class, () -> read(address));
    boolean inTheAnswer = address == CrookedServer.TOO_FEW || address == CrookedServer.WRONG_COUNT;
    if (inTheAnswer) {
      connection.close(); // whoever judges an answer closes it, as RemoteDevice does
    }
    assertThrows(IOException.class, () -> read(CrookedServer.GOOD), "it can be used again");
  }

  @Test
  void aLateAnswerIsNeverTakenForTheNextQuestion() throws Exception {
    assertThrows(IOException.class, () -> read(CrookedServer.LATE));
    server.late.countDown();
    assertThrows(IOException.class, () -> read(100));
    try (ClientConnection next = new ClientConnection("127.0.0.1", server.port(), ANSWER)) {
      connection = next;
      assertEquals(List.of(300L, 303L), boxed(read(100)));
    }
  }

  @Test
  void answersToOtherQuestionsAreThrownAway() throws Exception {
    assertEquals(List.of(36L, 39L), boxed(read(CrookedServer.FOREIGN_FIRST)));
    assertEquals(List.of(48L, 51L), boxed(read(CrookedServer.TWICE)));
    assertEquals(List.of(300L, 303L), boxed(read(100)));
  }

  @Test
  void anAnswerInPiecesIsOneAnswer() throws Exception {
    assertEquals(List.of(33L, 36L), boxed(read(CrookedServer.BYTE_BY_BYTE)));
  }

  @Test
  void anExceptionIsAnAnswerAndTheConnectionStays() throws Exception {
    assertEquals(0x0A, assertThrows(Refusal.class, () -> read(CrookedServer.NO_PATH)).code());
    Refusal behind = assertThrows(Refusal.class, () -> read(CrookedServer.NO_ANSWER_BEHIND));
    assertEquals(0x0B, behind.code());
    assertEquals(List.of(300L, 303L), boxed(read(100)));
    assertEquals(1, server.connections.get());
  }

  @Test
  void anUnreachableServerIsSaid() throws Exception {
    int port;
    try (ServerSocket nobody = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = nobody.getLocalPort(); // no thread accepts there, so it is free once this is closed
    }
    IOException e =
        assertThrows(IOException.class, () -> new ClientConnection("127.0.0.1", port, ANSWER));
    assertTrue(e.getMessage().contains("refused"), e.getMessage());
  }
}
