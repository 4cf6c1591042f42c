package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Serving.Permission;
import bufferstop.model.Type;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.io.IOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.SocketException;
import java.net.StandardSocketOptions;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

/**
 * Connections, limits and the end. Source of the S rows: Implementation Guide V1.0b, 4.2 to 4.3.
 */
class ModbusServerTest {
  private static final String READ = "03 00 00 00 01";
  private static final String ZERO = "03 02 00 00";

  @Test
  void s2OneClientTooManyClosesTheOneIdleLongest() throws IOException {
    try (RunningBench running = new RunningBench(Bench.hundredOfEach(), Bench.limits(2, 1000))) {
      Client first = running.client();
      assertEquals(ZERO, first.answer(READ));
      Client second = running.client();
      assertEquals(ZERO, second.answer(READ));
      assertEquals(ZERO, first.answer(READ));
      Client third = running.client();
      assertEquals(ZERO, third.answer(READ));
      assertTrue(second.isClosedByServer());
      assertEquals(ZERO, first.answer(READ));
      assertEquals(ZERO, third.answer(READ));
    }
  }

  @Test
  void s5S6ClientSocketsAreKeptAliveAndSendAtOnce() throws IOException {
    try (ServerSocketChannel listener =
            ServerSocketChannel.open().bind(new InetSocketAddress("127.0.0.1", 0));
        Client client = new Client(listener.socket().getLocalPort());
        SocketChannel accepted = listener.accept()) {
      new PlainClient(accepted, InetAddress.getLoopbackAddress(), Permission.ALL, null);
      assertTrue(accepted.getOption(StandardSocketOptions.SO_KEEPALIVE));
      assertTrue(accepted.getOption(StandardSocketOptions.TCP_NODELAY));
      assertEquals(client.localPort(), accepted.socket().getPort());
    }
  }

  @Test
  void aServerOutlivesAcceptsThatFail() throws IOException {
    AtomicInteger failures = new AtomicInteger(2);
    Bench bench = Bench.hundredOfEach();
    try (ModbusServer server =
        new ModbusServer(
            "hmi",
            List.of(bench.unit(Bench.UNIT)),
            "127.0.0.1",
            0,
            Limits.STANDARD,
            failingAccepts(failures))) {
      server.start();
      try (Client client = new Client(server.port())) {
        assertEquals(ZERO, client.answer(READ));
      }
    }
    assertTrue(failures.get() < 0);
  }

  private static PlainListener.Door failingAccepts(AtomicInteger failures) {
    return channel -> {
      if (failures.getAndDecrement() > 0) {
        throw new SocketException("Too many open files");
      }
      return channel.accept();
    };
  }

  @Test
  void aPortInUseIsTheCallersToTell() throws IOException {
    Bench bench = Bench.hundredOfEach();
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"));
        ModbusServer server =
            new ModbusServer(
                "hmi",
                List.of(bench.unit(Bench.UNIT)),
                "127.0.0.1",
                taken.getLocalPort(),
                Limits.STANDARD)) {
      assertThrows(BindException.class, server::start);
    }
  }

  @Test
  void aWriteWithoutScansIs04AndNeverHappens() throws IOException {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();
    try (ModbusServer server = bench.server(Bench.limits(4, 30))) {
      server.start();
      try (Client client = new Client(server.port())) {
        assertEquals("85 04", client.answer("05 00 00 FF 00"));
        bench.scan();
        assertEquals("01 01 00", client.answer("01 00 00 00 01"));
      }
    }
  }

  @Test
  void aWriteThatWaitsHoldsUpNoOtherClient() throws IOException {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();
    try (ModbusServer server = bench.server(Bench.limits(4, 60_000))) {
      server.start();
      try (Client writer = new Client(server.port());
          Client reader = new Client(server.port())) {
        writer.sendHex("00 01 00 00 00 06 01 05 00 00 FF 00");
        assertEquals("01 01 00", reader.answer("01 00 00 00 01"));
        Awaitility.await()
            .until(
                () -> {
                  bench.scan();
                  return bench.get(Table.COIL, 0) == 1;
                });
        assertEquals("00 01 00 00 00 06 01 05 00 00 FF 00", writer.receiveHex());
      }
    }
  }

  @Test
  void closeLeavesNoThreadNotEvenOneThatWaitsForAScan() throws IOException {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();
    ModbusServer server = bench.server(Bench.limits(4, 60_000));
    server.start();
    try (Client idle = new Client(server.port());
        Client half = new Client(server.port());
        Client writing = new Client(server.port())) {
      assertEquals("01 01 00", idle.answer("01 00 00 00 01"));
      half.sendHex("00 01 00");
      writing.sendHex("00 01 00 00 00 06 01 05 00 00 FF 00");
      assertEquals("01 01 00", idle.answer("01 00 00 00 01"));
      assertEquals(List.of("modbus-hmi"), LiveThreads.named("modbus-hmi"));
      server.close();
      assertEquals(List.of(), LiveThreads.named("modbus-hmi"));
      assertTrue(idle.isClosedByServer());
    }
    server.close();
    bench.scan();
    assertEquals(0, bench.get(Table.COIL, 0));
  }

  @Test
  void aGeneralClientUnderstandsTheAnswers() throws Exception {
    try (RunningBench running = new RunningBench(Bench.hundredOfEach())) {
      ModbusTCPMaster master = new ModbusTCPMaster("127.0.0.1", running.server.port());
      master.connect();
      try {
        master.writeCoil(Bench.UNIT, 3, true);
        master.writeSingleRegister(Bench.UNIT, 7, new SimpleRegister(4711));
        assertTrue(master.readCoils(Bench.UNIT, 0, 8).getBit(3));
        assertEquals(4711, master.readMultipleRegisters(Bench.UNIT, 7, 1)[0].getValue());
      } finally {
        master.disconnect();
      }
    }
  }
}
