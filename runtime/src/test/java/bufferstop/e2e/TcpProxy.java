package bufferstop.e2e;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** A network between client and server whose faults are switched by the test. */
final class TcpProxy implements AutoCloseable {
  private final ServerSocket door;
  private final int target;
  private final List<Socket> sockets = new CopyOnWriteArrayList<>();
  private volatile boolean cut;
  private volatile boolean frozen;
  private volatile long delayNanos;

  TcpProxy(int target) throws IOException {
    this.target = target;
    door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    start(this::accept, "proxy");
  }

  private static void start(Runnable work, String name) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  int port() {
    return door.getLocalPort();
  }

  /** Closes every connection and takes no new one, or takes them again. */
  void cut(boolean on) {
    cut = on;
    if (on) {
      closeAll();
    }
  }

  /** Connections stay open, and nothing passes: half-open, as when a machine is switched off. */
  void freeze(boolean on) {
    frozen = on;
  }

  /** Everything comes so much later, each way. */
  void delay(long millis) {
    delayNanos = TimeUnit.MILLISECONDS.toNanos(millis);
  }

  private void accept() {
    while (!door.isClosed()) {
      try {
        Socket client = door.accept();
        if (cut) {
          client.close();
          continue;
        }
        Socket server = new Socket(InetAddress.getLoopbackAddress(), target);
        client.setTcpNoDelay(true);
        server.setTcpNoDelay(true);
        sockets.add(client);
        sockets.add(server);
        start(() -> pass(client, server), "proxy out");
        start(() -> pass(server, client), "proxy back");
      } catch (IOException e) {
        // the server behind is gone, or the test ended: the client sees a closed connection
      }
    }
  }

  private void pass(Socket from, Socket to) {
    byte[] bytes = new byte[4096];
    try {
      InputStream in = from.getInputStream();
      OutputStream out = to.getOutputStream();
      for (int count = in.read(bytes); count >= 0; count = in.read(bytes)) {
        if (delayNanos > 0) {
          LockSupport.parkNanos(delayNanos);
        }
        if (!frozen) {
          out.write(bytes, 0, count);
        }
      }
    } catch (IOException e) {
      // closed by either end
    } finally {
      close(from);
      close(to);
    }
  }

  private static void close(Socket socket) {
    try {
      socket.close();
    } catch (IOException e) {
      // it is gone
    }
  }

  private void closeAll() {
    sockets.forEach(TcpProxy::close);
    sockets.clear();
  }

  @Override
  public void close() throws IOException {
    door.close();
    closeAll();
  }
}
