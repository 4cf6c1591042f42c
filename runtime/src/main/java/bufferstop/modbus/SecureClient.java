package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import javax.net.ssl.SSLException;
import javax.net.ssl.SSLSocket;

/** One client inside TLS: requests are answered in order of arrival, one at a time. */
final class SecureClient implements Admission.Guest, Runnable {
  private static final long LOOK_NANOS = TimeUnit.MICROSECONDS.toNanos(200);

  private final Socket socket; // the one under the TLS
  private final Dispatch dispatch;
  private final Admission admission;
  private final Credentials credentials;
  private final Complaints complaints;
  private final Exchange exchange = new Exchange();
  private final Received received = new Received();
  private volatile boolean busy;
  private volatile long lastNanos = System.nanoTime();
  private volatile long stuckNanos;

  SecureClient(
      Socket socket,
      Dispatch dispatch,
      Admission admission,
      Credentials credentials,
      Complaints complaints)
      throws IOException {
    this.socket = socket;
    this.dispatch = dispatch;
    this.admission = admission;
    this.credentials = credentials;
    this.complaints = complaints;
    socket.setTcpNoDelay(true);
    socket.setKeepAlive(true);
  }

  @Override
  public void run() {
    try {
      stuck();
      SSLSocket tls = credentials.over(socket);
      tls.startHandshake();
      Permission permission =
          admission.permission(address(), credentials.permission(tls.getSession()));
      stuckNanos = 0;
      serve(tls.getInputStream(), tls.getOutputStream(), permission);
    } catch (SSLException e) {
      complaints.add(
          Complaints.Kind.HANDSHAKE,
          "refused " + address().getHostAddress() + ": " + Credentials.why(e));
    } catch (Received.NotModbus e) {
      String peer = address().getHostAddress();
      complaints.add(Complaints.Kind.STREAM, "closed the connection of " + peer, e);
    } catch (IOException e) {
      // the client has left, or the server closes: nobody is there to be told
    }
  }

  private void serve(InputStream in, OutputStream out, Permission permission) throws IOException {
    while (read(in)) {
      stuckNanos = 0;
      busy = true;
      dispatch.begin(exchange, permission);
      while (exchange.isWaiting()) {
        if (Thread.currentThread().isInterrupted() && exchange.withdraw()) {
          return; // the server closes
        }
        LockSupport.parkNanos(LOOK_NANOS);
        dispatch.look(exchange);
      }
      lastNanos = System.nanoTime();
      busy = false;
      stuck();
      out.write(exchange.answer, 0, exchange.answerLength());
      stuckNanos = 0;
    }
  }

  /** Waits for the next whole request; FALSE at the end. */
  private boolean read(InputStream in) throws IOException {
    while (!received.next(exchange)) {
      stuckNanos = received.isEmpty() ? 0 : System.nanoTime() | 1; // never 0 while it stands
      ByteBuffer room = received.room();
      int count = in.read(room.array(), room.position(), room.remaining());
      if (count < 0) {
        return false;
      }
      room.position(room.position() + count);
    }
    return true;
  }

  private void stuck() {
    stuckNanos = System.nanoTime() | 1; // never 0
  }

  @Override
  public InetAddress address() {
    return socket.getInetAddress();
  }

  @Override
  public boolean isBusy() {
    return busy;
  }

  @Override
  public long lastNanos() {
    return lastNanos;
  }

  @Override
  public long stuckSinceNanos() {
    return stuckNanos;
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // a socket that cannot be closed has nothing left to lose
    }
  }
}
