package bufferstop.modbus;

import bufferstop.image.SnapshotRing;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Polling;
import bufferstop.model.Scope;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;

/**
 * A device of the field, asked and written over Modbus TCP by a thread of its own, one question at
 * a time. What was read is published in {@link #arrivals}; what is written is taken from a run's
 * published scans. No write is repeated by itself: after a break the device gets the values of that
 * time.
 */
public final class RemoteDevice implements AutoCloseable {
  private static final int MOST_READ_BITS = 2000;
  private static final int MOST_READ_REGISTERS = 125;
  private static final int MOST_WRITTEN_BITS = 1968;
  private static final int MOST_WRITTEN_REGISTERS = 123;
  private static final long LEAST_PAUSE = TimeUnit.MILLISECONDS.toNanos(50);
  private static final long MOST_PAUSE = TimeUnit.SECONDS.toNanos(2);

  private final String name;
  private final ModbusMap map;
  private final Polling polling;
  private final ReadRow[] reads;
  private final WriteRow[] writes;
  private final SnapshotRing source;
  private final long[] image; // of the source
  private final SnapshotRing arrivals;
  private final int[] all; // indexes of arrivals
  private final long[] arrived; // values, rounds of each row, whole rounds
  private final byte[] pdu = new byte[Exchange.MOST_PDU];
  private final Thread thread;
  private ClientConnection connection;
  private long pauseNanos = LEAST_PAUSE;
  private volatile boolean closing;
  private volatile long acknowledged = -1; // publication whose outputs the device has
  private volatile String trouble = "";
  private volatile long rounds;
  private volatile long breaks;

  /**
   * A device that is not asked yet.
   *
   * @param name for messages
   * @param map where it is, with addresses and types
   * @param read what it is asked for, in the order of {@link #arrivals}
   * @param written what it is given
   * @param scope gives what is written its cell
   * @param source published scans
   * @param cells of an image of the source
   */
  public RemoteDevice(
      String name,
      ModbusMap map,
      List<Entry> read,
      List<Entry> written,
      Scope scope,
      SnapshotRing source,
      int cells) {
    this.name = name;
    this.map = map;
    this.polling = map.polling();
    this.source = source;
    reads =
        AddressRow.of(read, map.fixed(), MOST_READ_BITS, MOST_READ_REGISTERS).stream()
            .map(row -> new ReadRow(row, read))
            .toArray(ReadRow[]::new);
    writes =
        AddressRow.of(written, List.of(), MOST_WRITTEN_BITS, MOST_WRITTEN_REGISTERS).stream()
            .map(row -> new WriteRow(row, scope))
            .toArray(WriteRow[]::new);
    image = new long[cells];
    arrived = new long[read.size() + reads.length + 1];
    arrivals = new SnapshotRing(arrived.length);
    all = IntStream.range(0, arrived.length).toArray();
    thread = new Thread(this::goRound, "modbus device " + name);
    thread.setDaemon(true);
  }

  /** Begins to ask. */
  public void start() {
    thread.start();
  }

  /** Its name. */
  public String name() {
    return name;
  }

  /** How it is asked. */
  public Polling polling() {
    return polling;
  }

  /**
   * What came of it, published after each round: the values in the order in which they were asked
   * for, then for each row how often it was read, then the number of rounds in which nothing
   * failed.
   */
  public SnapshotRing arrivals() {
    return arrivals;
  }

  /** How many numbers that is. */
  public int width() {
    return arrived.length;
  }

  /**
   * Copies what came of it unless it is known; must not wait or allocate, a scan calls it.
   *
   * @param known number of the publication that {@code into} holds, negative for none
   * @return number of the one it holds now
   */
  public long arrive(long known, long[] into) {
    return arrivals.published() == known ? known : arrivals.copy(all, 0, all.length, into);
  }

  /** Which row, see {@link #arrivals}, a value is read with. */
  public int rowOf(Entry entry) {
    for (int i = 0; i < reads.length; i++) {
      if (reads[i].entries().contains(entry)) {
        return i;
      }
    }
    throw new IllegalArgumentException("`" + entry.point().text() + "` is not read");
  }

  /** How many rows it is asked for. */
  public int rows() {
    return reads.length;
  }

  /** What is wrong with it, in plain words; empty while nothing is. */
  public String trouble() {
    return trouble;
  }

  /** Whole rounds so far. */
  public long rounds() {
    return rounds;
  }

  /** How often its connection broke, or could not be had. */
  public long breaks() {
    return breaks;
  }

  /** Waits until the device has the outputs of a publication; FALSE when it does not in time. */
  public boolean awaitAcknowledged(long publication, long nanos) {
    long deadline = System.nanoTime() + nanos;
    while (acknowledged < publication) {
      if (writes.length == 0 || System.nanoTime() - deadline > 0) {
        return writes.length == 0;
      }
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(1));
    }
    return true;
  }

  private void goRound() {
    while (!closing) {
      long began = System.nanoTime();
      try {
        connect();
        round();
        pauseNanos = LEAST_PAUSE;
        park(began + TimeUnit.MICROSECONDS.toNanos(polling.cycleMicros()));
      } catch (IOException e) {
        broken(e);
        park(System.nanoTime() + pauseNanos);
        pauseNanos = Math.min(MOST_PAUSE, 2 * pauseNanos);
      }
    }
    disconnect();
  }

  private void park(long untilNanos) {
    long left = untilNanos - System.nanoTime();
    while (left > 0 && !closing) {
      LockSupport.parkNanos(left);
      left = untilNanos - System.nanoTime();
    }
  }

  private void connect() throws IOException {
    if (connection == null) {
      connection = new ClientConnection(map.host(), map.port(), polling.answerMicros());
    }
  }

  private void broken(IOException e) {
    breaks++;
    trouble = map.host() + ":" + map.port() + ": " + plainly(e);
    disconnect();
  }

  private static String plainly(IOException e) {
    return e.getMessage() == null ? "the connection broke" : e.getMessage();
  }

  private void disconnect() {
    if (connection != null) {
      connection.close();
      connection = null;
    }
    for (WriteRow row : writes) {
      row.forget();
    }
  }

  private void round() throws IOException {
    String found = "";
    long publication = source.published();
    if (publication >= 0) {
      publication = source.read(cells -> System.arraycopy(cells, 0, image, 0, image.length));
      found = write();
    }
    if (found.isEmpty()) {
      acknowledged = publication;
    }
    int rowsAt = arrived.length - 1 - reads.length;
    for (int i = 0; i < reads.length; i++) {
      try {
        int length = ask(reads[i].question(pdu));
        reads[i].take(connection, length, arrived);
        arrived[rowsAt + i]++;
      } catch (Refusal e) {
        found = refused(reads[i].words(), e);
      }
    }
    if (found.isEmpty()) {
      arrived[arrived.length - 1]++;
      rounds = arrived[arrived.length - 1];
    }
    trouble = found;
    arrivals.publish(arrived);
  }

  private String write() throws IOException {
    String found = "";
    long refresh = TimeUnit.MICROSECONDS.toNanos(polling.refreshMicros());
    for (WriteRow row : writes) {
      row.see(image);
      if (row.isDue(System.nanoTime(), refresh)) {
        try {
          int length = ask(row.question(pdu));
          row.take(connection, length, pdu, System.nanoTime());
        } catch (Refusal e) {
          row.forget();
          found = refused(row.words(), e);
        }
      }
    }
    return found;
  }

  private int ask(int length) throws IOException, Refusal {
    return connection.ask(map.unit(), pdu, length, polling.answerMicros());
  }

  /** Source of the words: Modbus Application Protocol V1.1b3, 7 [re-read]. */
  private static String refused(String what, Refusal e) {
    String why =
        switch (e.code()) {
          case 0x01 -> "function not served";
          case 0x02 -> "no such address";
          case 0x03 -> "value not allowed";
          case 0x04 -> "device failure, or a value out of its type";
          case 0x06 -> "device busy";
          case 0x0A -> "the gateway has no path to it";
          case 0x0B -> "it does not answer the gateway";
          default -> "refused";
        };
    return "%s: exception %02X, %s".formatted(what, e.code(), why);
  }

  @Override
  public void close() {
    closing = true;
    LockSupport.unpark(thread);
    Threads.join(thread);
  }
}
