package bufferstop.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import javax.net.ServerSocketFactory;

/**
 * Serves units to Modbus TCP clients: functions 1 to 6, 15, 16, 22 and 23. A read is answered from
 * one published scan. A write is answered once a published scan shows it. Whatever goes wrong with
 * one client or one request, the others are served.
 */
public final class ModbusServer implements AutoCloseable {
  private static final int BACKLOG = 64;
  private static final long LOOK_NANOS = TimeUnit.MICROSECONDS.toNanos(200);
  private static final long ACCEPT_PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(100);

  private final String name;
  private final Units units;
  private final String host;
  private final int wantedPort;
  private final Limits limits;
  private final ServerSocketFactory sockets;
  private final Complaints complaints;
  private final Connections connections;
  private ServerSocket listener;
  private Thread acceptor;

  /**
   * What the server puts up with.
   *
   * @param connections clients at a time; one more closes the one idle longest
   * @param writeMillis how long a write may wait for a scan before it is withdrawn and answered 04
   */
  public record Limits(int connections, long writeMillis) {
    /** 64 clients, one second. */
    public static final Limits STANDARD = new Limits(64, 1000);
  }

  /**
   * A server, not yet listening.
   *
   * @param name for threads and messages, usually that of the map
   * @param units each with its own map; the first answers identifiers 0 and 255 too, which mean the
   *     server itself; any other identifier is answered 0A
   * @param host address to listen on
   * @param port 0 to 65535; 0 asks the system for a free one
   */
  public ModbusServer(String name, List<Unit> units, String host, int port, Limits limits) {
    this(name, units, host, port, limits, ServerSocketFactory.getDefault());
  }

  ModbusServer(
      String name,
      List<Unit> units,
      String host,
      int port,
      Limits limits,
      ServerSocketFactory sockets) {
    this.name = name;
    this.units = new Units(units);
    this.host = host;
    this.wantedPort = port;
    this.limits = limits;
    this.sockets = sockets;
    complaints = new Complaints(name);
    connections = new Connections(limits.connections(), threadName("client"));
  }

  private String threadName(String role) {
    return "modbus-" + name + "-" + role;
  }

  /**
   * Binds and begins to serve; once only.
   *
   * @throws java.net.BindException when the port is in use or not allowed
   * @throws IOException when the host is unknown
   */
  public void start() throws IOException {
    if (listener != null) {
      throw new IllegalStateException("start was called before");
    }
    ServerSocket socket = sockets.createServerSocket();
    try {
      socket.setReuseAddress(true);
      socket.bind(new InetSocketAddress(InetAddress.getByName(host), wantedPort), BACKLOG);
    } catch (IOException e) {
      socket.close();
      throw e;
    }
    listener = socket;
    acceptor = new Thread(this::acceptAll, threadName("listen"));
    acceptor.setDaemon(true);
    acceptor.start();
  }

  private void acceptAll() {
    while (!listener.isClosed()) {
      try {
        connections.add(connection(listener.accept()));
      } catch (IOException | RuntimeException e) {
        if (!listener.isClosed()) {
          complaints.add(Complaints.Kind.ACCEPT, "cannot take a new client for now", e);
          LockSupport.parkNanos(ACCEPT_PAUSE_NANOS);
        }
      }
    }
  }

  private Connection connection(Socket socket) throws IOException {
    Dispatch dispatch =
        new Dispatch(
            units, limits.writeMillis(), () -> LockSupport.parkNanos(LOOK_NANOS), complaints);
    try {
      return new Connection(socket, dispatch, complaints);
    } catch (IOException e) {
      socket.close();
      throw e;
    }
  }

  /**
   * The port clients connect to.
   *
   * @throws IllegalStateException before {@link #start}
   */
  public int port() {
    if (listener == null) {
      throw new IllegalStateException("port is known after start");
    }
    return listener.getLocalPort();
  }

  /** Closes the listener, then every client's socket, then waits for all threads to end. */
  @Override
  public void close() {
    if (listener == null) {
      return;
    }
    try {
      listener.close();
    } catch (IOException e) {
      // it takes no more clients all the same
    }
    acceptor.interrupt(); // out of the pause after a failed accept
    connections.close();
    Threads.join(acceptor);
  }
}
