package bufferstop.modbus;

import java.io.IOException;
import java.net.InetSocketAddress;

/** A port where clients come in, and their connections. */
interface Listener {

  /**
   * Binds and begins to serve; once only.
   *
   * @throws java.net.BindException when the port is in use or not allowed
   */
  void start(InetSocketAddress address) throws IOException;

  /** The port that was bound. */
  int port();

  /** Clients connected now. */
  int clients();

  /** Takes no more clients, closes those there are, waits for the threads to end. */
  void close();
}
