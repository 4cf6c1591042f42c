package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
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

  /** Waits for the next whole request; FALSE at the end or when it cannot be one. */
  private boolean read(InputStream in) throws IOException {
    while (true) {
      int got = in.read(exchange.request, 0, Exchange.HEADER);
      if (got <= 0) {
        return false;
      }
      stuck();
      int rest = Exchange.HEADER - got;
      if (in.readNBytes(exchange.request, got, rest) < rest) {
        return false;
      }
      if (!exchange.isPlausible()) {
        complaints.add(
            Complaints.Kind.STREAM,
            "closed the connection of "
                + address().getHostAddress()
                + ": a header gives length "
                + exchange.length());
        return false;
      }
      int length = exchange.length();
      if (in.readNBytes(exchange.request, Exchange.HEADER, length) < length) {
        return false;
      }
      stuckNanos = 0;
      if (PduCheck.word(exchange.request, 2) == 0) {
        return true;
      }
    }
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
