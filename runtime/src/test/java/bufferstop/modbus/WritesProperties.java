package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What holds whoever writes and reads at the same time. */
class WritesProperties {
  private static final int WRITERS = 4;
  private static final int WRITES_EACH = 100;
  private static final Table HOLDING = Table.HOLDING_REGISTER;

  private final ExecutorService clients = Executors.newCachedThreadPool();

  @AfterEach
  void end() {
    clients.shutdownNow();
  }

  private static String words(long value, int registers) {
    StringBuilder hex = new StringBuilder();
    for (int i = registers - 1; i >= 0; i--) {
      hex.append(String.format(" %02X %02X", value >> 16 * i + 8 & 0xFF, value >> 16 * i & 0xFF));
    }
    return hex.toString();
  }

  /** All words of such a value are equal, so a torn one shows. */
  private static long evenValue(int word, int registers) {
    long value = 0;
    for (int i = 0; i < registers; i++) {
      value = value << 16 | word;
    }
    return value;
  }

  @Test
  void noReaderSeesHalfAWideValueNorHalfARequest() throws Exception {
    // a UDINT at 0 and an LREAL at 2, always written together with the same word six times
    Bench bench = new Bench().operator(HOLDING, 0, Type.UDINT);
    bench.operator(HOLDING, 2, Type.LREAL, WordOrder.LOW_WORD_FIRST, null, null).scan();
    try (RunningBench running = new RunningBench(bench)) {
      AtomicBoolean writing = new AtomicBoolean(true);
      List<Future<Integer>> readers = new ArrayList<>();
      for (int i = 0; i < 2; i++) {
        Client client = running.client();
        readers.add(clients.submit(() -> readWhile(writing, client)));
      }
      List<Callable<Void>> writers = new ArrayList<>();
      for (int i = 0; i < WRITERS; i++) {
        int first = i * WRITES_EACH;
        Client client = running.client();
        writers.add(() -> writeEven(client, first));
      }
      for (Future<Void> writer : clients.invokeAll(writers)) {
        writer.get();
      }
      writing.set(false);
      for (Future<Integer> reader : readers) {
        assertTrue(reader.get() > 0, "nothing was read");
      }
    }
  }

  private static Void writeEven(Client client, int first) {
    for (int word = first; word < first + WRITES_EACH; word++) {
      String answer =
          client.answer(
              "10 00 00 00 06 0C" + words(evenValue(word, 2), 2) + words(evenValue(word, 4), 4));
      assertEquals("10 00 00 00 06", answer);
    }
    return null;
  }

  private static int readWhile(AtomicBoolean writing, Client client) {
    int reads = 0;
    do {
      String answer = client.answer("03 00 00 00 06");
      String word = answer.substring(6, 11);
      assertEquals("03 0C" + (" " + word).repeat(6), answer);
      reads++;
    } while (writing.get());
    return reads;
  }

  @Test
  void everySwitchingOfOneCoilByTwoClientsShowsInAPublication() throws Exception {
    Bench bench = new Bench().operator(Table.COIL, 0, Type.BOOL).scanned();
    int cell = bench.cell(Table.COIL, 0);
    ModbusServer server = bench.server(Bench.limits(4, 10_000));
    server.start();
    try (Client on = new Client(server.port());
        Client off = new Client(server.port())) {
      for (int round = 0; round < 100; round++) {
        long before = round % 2;
        bench.set(Table.COIL, 0, before).scan();
        Future<String> switchedOn = clients.submit(() -> on.answer("05 00 00 FF 00"));
        Future<String> switchedOff = clients.submit(() -> off.answer("05 00 00 00 00"));
        List<Long> shown = new ArrayList<>();
        long[] value = new long[1];
        while (!(switchedOn.isDone() && switchedOff.isDone())) {
          bench.scan();
          bench.snapshots.copy(new int[] {cell}, 0, 1, value);
          shown.add(value[0]);
        }
        assertEquals("05 00 00 FF 00", switchedOn.get());
        assertEquals("05 00 00 00 00", switchedOff.get());
        // whichever came first: the write that differs from before has had a scan of its own
        assertTrue(shown.contains(1 - before), () -> before + " was never left: " + shown);
      }
    } finally {
      server.close();
    }
  }

  @Test
  void maskWritesOfSeveralClientsLoseNoBit() throws Exception {
    Bench bench = new Bench().operator(HOLDING, 0, Type.UINT).scanned();
    try (RunningBench running = new RunningBench(bench)) {
      List<Callable<Void>> togglers = new ArrayList<>();
      for (int bit = 0; bit < 4; bit++) {
        Client client = running.client();
        int mask = 1 << bit;
        togglers.add(() -> toggle(client, mask));
      }
      for (Future<Void> toggler : clients.invokeAll(togglers)) {
        toggler.get();
      }
    }
  }

  /** Reads its own bit back with each write, whatever the others do to theirs. */
  private static Void toggle(Client client, int mask) {
    for (int i = 0; i < WRITES_EACH / 2; i++) {
      int or = i % 2 == 0 ? mask : 0;
      client.answer("16 00 00" + words(~mask & 0xFFFF, 1) + words(or, 1));
      int read =
          Integer.parseInt(client.answer("03 00 00 00 01").substring(6).replace(" ", ""), 16);
      assertEquals(or, read & mask);
    }
    return null;
  }
}
