package bufferstop.e2e;

import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Stands between clients and a server and writes what passes as a capture: each piece as an IPv4
 * packet with a TCP header, from and to port 502, so that a dissector needs no rights and no hints.
 * Source of the file format: libpcap's own description, with link type 228 for raw IPv4 [from
 * memory, not re-read]; that a dissector reads it is what the test shows.
 */
final class Wiretap implements AutoCloseable {
  private static final int SERVER_PORT = 502;
  private static final int HEADERS = 40;
  private static final int IPV4 = 228;
  private static final int PSH_ACK = 0x18;

  private final int serverPort;
  private final ServerSocket listener;
  private final DataOutputStream capture;
  private final AtomicInteger clients = new AtomicInteger();
  private final AtomicInteger live = new AtomicInteger();

  Wiretap(int serverPort, Path file) throws IOException {
    this.serverPort = serverPort;
    listener = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    capture = new DataOutputStream(Files.newOutputStream(file));
    capture.writeInt(0xA1B2C3D4);
    capture.writeShort(2);
    capture.writeShort(4);
    capture.writeInt(0);
    capture.writeInt(0);
    capture.writeInt(65_535);
    capture.writeInt(IPV4);
    start(this::acceptAll);
  }

  int port() {
    return listener.getLocalPort();
  }

  private static void start(Runnable work) {
    Thread thread = new Thread(work, "wiretap");
    thread.setDaemon(true);
    thread.start();
  }

  private void acceptAll() {
    try {
      while (true) {
        Socket client = listener.accept();
        Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort);
        client.setTcpNoDelay(true);
        server.setTcpNoDelay(true);
        Conversation both = new Conversation(40_000 + clients.incrementAndGet());
        live.addAndGet(2);
        start(() -> forward(client, server, both, 0));
        start(() -> forward(server, client, both, 1));
      }
    } catch (IOException e) {
      // closed
    }
  }

  private void forward(Socket from, Socket to, Conversation both, int direction) {
    byte[] piece = new byte[4096];
    try (InputStream in = from.getInputStream();
        OutputStream out = to.getOutputStream()) {
      for (int count = in.read(piece); count >= 0; count = in.read(piece)) {
        both.record(direction, piece, count); // before it is seen: a question precedes its answer
        out.write(piece, 0, count);
      }
    } catch (IOException e) {
      // one of them has left
    } finally {
      live.decrementAndGet();
    }
  }

  /** Whether nobody talks any more. */
  boolean isQuiet() {
    return live.get() == 0;
  }

  @Override
  public void close() throws IOException {
    listener.close();
    synchronized (capture) {
      capture.close();
    }
  }

  private final class Conversation {
    private final int clientPort;
    private final int[] sent = new int[2]; // bytes, by direction

    Conversation(int clientPort) {
      this.clientPort = clientPort;
    }

    void record(int direction, byte[] bytes, int count) throws IOException {
      synchronized (capture) {
        long micros = System.nanoTime() / 1000;
        capture.writeInt((int) (micros / 1_000_000));
        capture.writeInt((int) (micros % 1_000_000));
        capture.writeInt(HEADERS + count);
        capture.writeInt(HEADERS + count);
        capture.writeInt(0x4500_0000 | HEADERS + count);
        capture.writeInt(0);
        capture.writeInt(0x4006_0000); // time to live, TCP, no checksum
        capture.writeInt(direction == 0 ? 0x7F00_0002 : 0x7F00_0001);
        capture.writeInt(direction == 0 ? 0x7F00_0001 : 0x7F00_0002);
        capture.writeShort(direction == 0 ? clientPort : SERVER_PORT);
        capture.writeShort(direction == 0 ? SERVER_PORT : clientPort);
        capture.writeInt(1 + sent[direction]);
        capture.writeInt(1 + sent[1 - direction]);
        capture.writeShort(0x5000 | PSH_ACK);
        capture.writeShort(65_535);
        capture.writeInt(0);
        capture.write(bytes, 0, count);
        capture.flush();
        sent[direction] += count;
      }
    }
  }
}
