package bufferstop.modbus;

import bufferstop.model.Network;
import bufferstop.model.Serving;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Serves units to Modbus TCP clients: functions 1 to 6, 15, 16, 22, 23 and 43/14, plain or inside
 * TLS. A read is answered from one published scan. A write is answered once a published scan shows
 * it. Whatever goes wrong with one client or one request, the others are served.
 */
public final class ModbusServer implements AutoCloseable {
  private final Listener listener;
  private final Dispatch dispatch; // null when each client has its own
  private final String host;
  private final int wantedPort;
  private boolean started;

  /**
   * What the server puts up with.
   *
   * @param connections clients at a time; one more closes the one idle longest
   * @param perAddress clients at a time from one address; one more closes its own idle longest
   * @param writeMillis how long a write may wait for a scan before it is withdrawn and answered 04
   * @param idleNanos a client without a request for so long is closed; 0 for never
   * @param stuckNanos so long half a request, a handshake or an unread answer may stand
   * @param from who may connect
   * @param writers who of them may write; others are answered 01
   * @param priority whose connections are never closed for others or for being idle
   */
  public record Limits(
      int connections,
      int perAddress,
      long writeMillis,
      long idleNanos,
      long stuckNanos,
      List<Network> from,
      List<Network> writers,
      List<Network> priority) {
    private static final long WRITE_MILLIS = 1000;
    private static final long STUCK_NANOS = TimeUnit.SECONDS.toNanos(10);

    /** What a project says that says nothing. */
    public static final Limits STANDARD = of(Serving.STANDARD);

    /** What a project says; a write waits a second, half a request ten. */
    public static Limits of(Serving serving) {
      return new Limits(
          serving.connections(),
          serving.perAddress(),
          WRITE_MILLIS,
          TimeUnit.MICROSECONDS.toNanos(serving.idleMicros()),
          STUCK_NANOS,
          serving.from(),
          serving.writers(),
          serving.priority());
    }
  }

  /**
   * A server, not yet listening, whose clients prove nothing.
   *
   * @param name for threads and messages, usually that of the map
   * @param units each with its own map; the first answers identifiers 0 and 255 too, which mean the
   *     server itself; any other identifier is answered 0A
   * @param host address to listen on
   * @param port 0 to 65535; 0 asks the system for a free one
   */
  public ModbusServer(String name, List<Unit> units, String host, int port, Limits limits) {
    this(name, units, host, port, limits, ServerSocketChannel::accept);
  }

  ModbusServer(
      String name,
      List<Unit> units,
      String host,
      int port,
      Limits limits,
      PlainListener.Door door) {
    Complaints complaints = new Complaints(name);
    dispatch = new Dispatch(new Units(units), limits.writeMillis(), complaints);
    this.listener =
        new PlainListener("modbus-" + name, dispatch, new Admission(limits), complaints, door);
    this.host = host;
    this.wantedPort = port;
  }

  /**
   * A server, not yet listening, whose clients prove who they are and what their role is.
   *
   * @param credentials what the server proves itself with, and whom it trusts with what
   */
  public ModbusServer(
      String name,
      List<Unit> units,
      String host,
      int port,
      Limits limits,
      Credentials credentials) {
    this.dispatch = null;
    this.listener =
        new SecureListener(
            "modbus-" + name + "-secure",
            new Units(units),
            limits,
            credentials,
            new Complaints(name));
    this.host = host;
    this.wantedPort = port;
  }

  /**
   * Binds and begins to serve; once only.
   *
   * @throws java.net.BindException when the port is in use or not allowed
   * @throws IOException when the host is unknown
   */
  public void start() throws IOException {
    if (started) {
      throw new IllegalStateException("start was called before");
    }
    listener.start(new InetSocketAddress(InetAddress.getByName(host), wantedPort));
    started = true;
  }

  /**
   * The port clients connect to.
   *
   * @throws IllegalStateException before {@link #start}
   */
  public int port() {
    if (!started) {
      throw new IllegalStateException("port is known after start");
    }
    return listener.port();
  }

  /** How regularly the clients ask; null inside TLS. */
  public PollCycles cycles() {
    return dispatch == null ? null : dispatch.cycles();
  }

  /** Clients connected now. */
  public int clients() {
    return listener.clients();
  }

  /** Takes no more clients, closes those there are, then waits for all threads to end. */
  @Override
  public void close() {
    if (started) {
      listener.close();
    }
  }
}
