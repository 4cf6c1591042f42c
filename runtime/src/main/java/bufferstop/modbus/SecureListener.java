package bufferstop.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Clients inside TLS, each on a thread of its own, handshake and all: none can hold up another. The
 * thread that takes them also closes those that are idle or stuck, by closing the socket under
 * their TLS, which frees whoever reads or writes.
 */
final class SecureListener implements Listener {
  private static final int BACKLOG = 128;
  private static final int SWEEP_MILLIS = 250;
  private static final long ACCEPT_PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(100);

  private final String threadName;
  private final Units units;
  private final ModbusServer.Limits limits;
  private final Credentials credentials;
  private final Complaints complaints;
  private final Admission admission;
  private final Set<Thread> threads = ConcurrentHashMap.newKeySet();
  private ServerSocket socket;
  private Thread acceptor;

  SecureListener(
      String threadName,
      Units units,
      ModbusServer.Limits limits,
      Credentials credentials,
      Complaints complaints) {
    this.threadName = threadName;
    this.units = units;
    this.limits = limits;
    this.credentials = credentials;
    this.complaints = complaints;
    admission = new Admission(limits);
  }

  @Override
  public void start(InetSocketAddress address) throws IOException {
    ServerSocket opened = new ServerSocket();
    try {
      opened.setReuseAddress(true);
      opened.setSoTimeout(SWEEP_MILLIS);
      opened.bind(address, BACKLOG);
    } catch (IOException e) {
      opened.close();
      throw e;
    }
    socket = opened;
    acceptor = new Thread(this::acceptAll, threadName);
    acceptor.setDaemon(true);
    acceptor.start();
  }

  private void acceptAll() {
    long swept = System.nanoTime();
    while (!socket.isClosed()) {
      try {
        welcome(socket.accept());
      } catch (SocketTimeoutException e) {
        // time to sweep
      } catch (IOException | RuntimeException | OutOfMemoryError e) { // no thread left, perhaps
        if (!socket.isClosed()) {
          complaints.add(
              Complaints.Kind.ACCEPT, "cannot take a new client for now: " + e.getMessage());
          LockSupport.parkNanos(ACCEPT_PAUSE_NANOS);
        }
      }
      if (System.nanoTime() - swept >= TimeUnit.MILLISECONDS.toNanos(SWEEP_MILLIS)) {
        swept = System.nanoTime();
        admission.sweep();
      }
    }
  }

  private void welcome(Socket taken) throws IOException {
    InetAddress address = taken.getInetAddress();
    if (!admission.isAllowed(address)) {
      complaints.add(
          Complaints.Kind.ADDRESS, "refused " + address.getHostAddress() + ", not in `from`");
      taken.close();
      return;
    }
    Dispatch dispatch = new Dispatch(units, limits.writeMillis(), complaints);
    SecureClient client = new SecureClient(taken, dispatch, admission, credentials, complaints);
    if (!admission.admit(client)) {
      client.close();
      return;
    }
    Thread thread = new Thread(() -> serve(client), threadName + "-client");
    thread.setDaemon(true);
    threads.add(thread);
    try {
      thread.start();
    } catch (OutOfMemoryError e) {
      threads.remove(thread);
      admission.left(client);
      client.close();
      throw e;
    }
  }

  private void serve(SecureClient client) {
    try {
      client.run();
    } finally {
      client.close();
      admission.left(client);
      threads.remove(Thread.currentThread());
    }
  }

  @Override
  public int port() {
    return socket.getLocalPort();
  }

  @Override
  public int clients() {
    return admission.count();
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // it takes no more clients all the same
    }
    acceptor.interrupt(); // out of the pause after a failed accept
    Threads.join(acceptor);
    List<Thread> ending = List.copyOf(threads);
    admission.closeAll();
    ending.forEach(Thread::interrupt); // out of a wait for a scan
    ending.forEach(Threads::join);
  }
}
