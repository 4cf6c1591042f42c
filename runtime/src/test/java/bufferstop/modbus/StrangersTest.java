package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Network;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/**
 * Clients that are not wanted, or do not behave, beside one that does. Source of the S rows:
 * Implementation Guide V1.0b, 4.2.1.1, 4.2.1.2, 4.2.3 and Figure 7 [re-read].
 */
class StrangersTest {
  private static final String READ = "03 00 00 00 01";
  private static final String ZERO = "03 02 00 00";
  private static final List<Network> EVERYONE = List.of(Network.ALL_V4, Network.ALL_V6);
  private static final Network THIS = new Network("127.0.0.1", new byte[] {127, 0, 0, 1}, 32);
  private static final Network OTHER = new Network("127.0.0.2", new byte[] {127, 0, 0, 2}, 32);
  private static final long SOON = TimeUnit.MILLISECONDS.toNanos(200);
  private static final long NEVER = TimeUnit.HOURS.toNanos(1);

  private RunningBench running;

  private void serve(Limits limits) throws IOException {
    running = new RunningBench(Bench.hundredOfEach(), limits);
  }

  private static Limits limits(
      int most, int perAddress, long idle, long stuck, List<Network> priority) {
    return new Limits(most, perAddress, 1000, idle, stuck, EVERYONE, EVERYONE, priority);
  }

  private static Limits access(List<Network> from, List<Network> writers) {
    return new Limits(8, 8, 1000, 0, NEVER, from, writers, List.of());
  }

  private Client from(String address) throws IOException {
    return new Client(
        new Socket(
            InetAddress.getLoopbackAddress(),
            running.server.port(),
            InetAddress.getByName(address),
            0));
  }

  @AfterEach
  void close() throws IOException {
    running.close();
  }

  @Test
  void s10AnAddressOutsideTheListGetsAClosedConnectionAndNoByte() throws IOException {
    serve(access(List.of(OTHER), EVERYONE));
    try (Client stranger = from("127.0.0.1");
        Client known = from("127.0.0.2")) {
      assertTrue(stranger.isClosedByServer());
      assertEquals(ZERO, known.answer(READ));
    }
  }

  @Test
  void whoMayNotWriteIsAnswered01AndMayStillRead() throws IOException {
    serve(access(EVERYONE, List.of(OTHER)));
    try (Client reader = from("127.0.0.1");
        Client writer = from("127.0.0.2")) {
      assertEquals("86 01", reader.answer("06 00 00 00 07"));
      assertEquals("85 01", reader.answer("05 00 00 FF 00"));
      assertEquals("8F 01", reader.answer("0F 00 00 00 01 01 01"));
      assertEquals("90 01", reader.answer("10 00 00 00 01 02 00 07"));
      assertEquals("96 01", reader.answer("16 00 00 00 00 00 07"));
      assertEquals("97 01", reader.answer("17 00 00 00 01 00 00 00 01 02 00 07"));
      assertEquals(ZERO, reader.answer(READ));
      assertEquals("06 00 00 00 07", writer.answer("06 00 00 00 07"));
      assertEquals("03 02 00 07", reader.answer(READ));
    }
    assertEquals(0, running.bench.get(Table.COIL, 0));
  }

  @Test
  void s2OneTooManyOfOneAddressClosesItsOwnIdleLongest() throws IOException {
    serve(limits(8, 2, 0, NEVER, List.of()));
    try (Client other = from("127.0.0.2");
        Client first = from("127.0.0.1");
        Client second = from("127.0.0.1")) {
      assertEquals(ZERO, other.answer(READ));
      assertEquals(ZERO, first.answer(READ));
      assertEquals(ZERO, second.answer(READ));
      try (Client third = from("127.0.0.1")) {
        assertEquals(ZERO, third.answer(READ));
        assertTrue(first.isClosedByServer());
        assertEquals(ZERO, second.answer(READ));
        assertEquals(ZERO, other.answer(READ));
      }
    }
  }

  @Test
  void s3APriorityAddressIsNotClosedForOthers() throws IOException {
    serve(limits(2, 2, 0, NEVER, List.of(THIS)));
    try (Client first = from("127.0.0.1");
        Client second = from("127.0.0.1")) {
      assertEquals(ZERO, first.answer(READ));
      assertEquals(ZERO, second.answer(READ));
      try (Client other = from("127.0.0.2")) {
        assertTrue(other.isClosedByServer());
      }
      assertEquals(ZERO, first.answer(READ));
    }
  }

  @Test
  void anIdleClientIsClosedAndABusyOneIsNot() throws IOException {
    serve(limits(8, 8, SOON, NEVER, List.of(OTHER)));
    try (Client idle = from("127.0.0.1");
        Client priority = from("127.0.0.2");
        Client busy = from("127.0.0.1")) {
      assertEquals(ZERO, priority.answer(READ));
      Awaitility.await()
          .until(
              () -> {
                assertEquals(ZERO, busy.answer(READ));
                return running.server.clients() == 2;
              });
      assertTrue(idle.isClosedByServer());
      assertEquals(ZERO, priority.answer(READ));
    }
  }

  @Test
  void t10HalfARequestIsClosedInTimeAndHoldsUpNobody() throws IOException {
    serve(limits(8, 8, 0, SOON, List.of()));
    try (Client half = from("127.0.0.1");
        Client good = from("127.0.0.1")) {
      half.sendHex("00 01 00 00 00 06 01 03");
      assertEquals(ZERO, good.answer(READ));
      assertTrue(half.isClosedByServer());
      assertEquals(ZERO, good.answer(READ));
    }
  }

  @Test
  void aClientThatDoesNotReadIsClosedInTimeAndHoldsUpNobody() throws Exception {
    serve(limits(8, 8, 0, SOON, List.of()));
    byte[] request = Bench.frame(1, Bench.UNIT, Bench.bytes("03 00 00 00 64"));
    try (Client deaf = from("127.0.0.1");
        Client good = from("127.0.0.1")) {
      assertEquals(ZERO, good.answer(READ));
      Thread asking = new Thread(() -> askUntilClosed(deaf, request));
      asking.start();
      Awaitility.await()
          .until(
              () -> {
                assertEquals(ZERO, good.answer(READ));
                return running.server.clients() == 1;
              });
      asking.join();
    }
  }

  private static void askUntilClosed(Client deaf, byte[] request) {
    try {
      while (true) {
        deaf.send(request);
      }
    } catch (IOException e) {
      // closed by the server, or unread answers fill everything up to here
    }
  }

  @Test
  void aThousandConnectionsComeAndGo() throws IOException {
    serve(Limits.STANDARD);
    try (Client good = from("127.0.0.1")) {
      for (int i = 0; i < 1000; i++) {
        try (Client passing = from("127.0.0.1")) {
          if (i % 2 == 0) {
            assertEquals(ZERO, passing.answer(READ));
          }
        }
      }
      assertEquals(ZERO, good.answer(READ));
      Awaitility.await().until(() -> running.server.clients() == 1);
    }
  }

  @Test
  void twoHundredConnectionsAreServedAtATime() throws IOException {
    serve(Limits.STANDARD);
    List<Client> clients = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      clients.add(running.client());
    }
    for (int round = 0; round < 3; round++) {
      for (Client client : clients) {
        assertEquals(ZERO, client.answer(READ));
      }
    }
    assertEquals(200, running.server.clients());
  }

  @Test
  void garbageBesideAGoodClientCostsItNoAnswer() throws IOException {
    serve(Limits.STANDARD);
    long seed = new SplittableRandom().nextLong();
    SplittableRandom random = new SplittableRandom(seed);
    try (Client good = from("127.0.0.1")) {
      for (int i = 0; i < 300; i++) {
        byte[] garbage = new byte[1 + random.nextInt(600)];
        random.nextBytes(garbage);
        try (Client bad = from("127.0.0.1")) {
          bad.send(garbage);
          assertEquals(ZERO, good.answer(READ), "seed " + seed);
        }
      }
    }
  }

  @Test
  void aFloodOfOneClientLeavesTheOthersTheirTurn() throws IOException {
    serve(Limits.STANDARD);
    byte[] request = Bench.frame(1, Bench.UNIT, Bench.bytes(READ));
    byte[] many = new byte[200 * request.length];
    for (int i = 0; i < 200; i++) {
      System.arraycopy(request, 0, many, i * request.length, request.length);
    }
    try (Client flooding = from("127.0.0.1");
        Client good = from("127.0.0.1")) {
      for (int round = 0; round < 20; round++) {
        flooding.send(many);
        assertEquals(ZERO, good.answer(READ));
        for (int i = 0; i < 200; i++) {
          assertEquals(11, flooding.receive().length);
        }
      }
    }
  }
}
