package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * All plain clients on one thread. None of them can hold it up: it never waits for a client, nor
 * for a scan, and answers at most some requests of one before it turns to the next.
 */
final class PlainListener implements Listener {
  private static final int BACKLOG = 128;
  private static final long SWEEP_MILLIS = 250;
  private static final long LOOK_MILLIS = 1; // while a write waits for its scan
  private static final long ACCEPT_PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(100);

  /** How a client is taken; tests let it fail. */
  interface Door {
    SocketChannel accept(ServerSocketChannel channel) throws IOException;
  }

  private final String threadName;
  private final Dispatch dispatch;
  private final Admission admission;
  private final Complaints complaints;
  private final Door door;
  private final Consumer<SelectionKey> ready = this::ready;
  private final List<PlainClient> waiting = new ArrayList<>(); // for a scan
  private final Deque<PlainClient> more = new ArrayDeque<>(); // with requests left unanswered
  private Selector selector;
  private ServerSocketChannel channel;
  private SelectionKey doorKey;
  private long doorShutNanos; // since when nobody is taken, 0 while it is open
  private Thread thread;
  private volatile boolean closed;

  PlainListener(
      String threadName, Dispatch dispatch, Admission admission, Complaints complaints, Door door) {
    this.threadName = threadName;
    this.dispatch = dispatch;
    this.admission = admission;
    this.complaints = complaints;
    this.door = door;
  }

  @Override
  public void start(InetSocketAddress address) throws IOException {
    ServerSocketChannel opened = ServerSocketChannel.open();
    try {
      opened.setOption(StandardSocketOptions.SO_REUSEADDR, true);
      opened.bind(address, BACKLOG);
      opened.configureBlocking(false);
      selector = Selector.open();
      doorKey = opened.register(selector, SelectionKey.OP_ACCEPT);
    } catch (IOException e) {
      opened.close();
      throw e;
    }
    channel = opened;
    thread = new Thread(this::serve, threadName);
    thread.setDaemon(true);
    thread.start();
  }

  private void serve() {
    long swept = System.nanoTime();
    try {
      while (!closed) {
        if (more.isEmpty()) {
          selector.select(ready, waiting.isEmpty() ? SWEEP_MILLIS : LOOK_MILLIS);
        } else {
          selector.selectNow(ready);
        }
        answerMore();
        lookAtWaiting();
        if (System.nanoTime() - swept >= TimeUnit.MILLISECONDS.toNanos(SWEEP_MILLIS)) {
          swept = System.nanoTime();
          admission.sweep();
          openDoor();
        }
      }
    } catch (IOException e) {
      complaints.add(Complaints.Kind.ACCEPT, "the listener has failed and is closed", e);
    } finally {
      waiting.forEach(PlainClient::withdraw);
      admission.closeAll();
      closeQuietly();
    }
  }

  private void ready(SelectionKey key) {
    if (key == doorKey) {
      takeClient();
    } else {
      ((PlainClient) key.attachment()).ready();
    }
  }

  private void takeClient() {
    SocketChannel taken = null;
    try {
      taken = door.accept(channel);
      if (taken != null) {
        welcome(taken);
      }
    } catch (IOException | RuntimeException e) {
      complaints.add(Complaints.Kind.ACCEPT, "cannot take a new client for now", e);
      closeQuietly(taken);
      doorKey.interestOps(0); // else the same failure is tried again and again
      doorShutNanos = System.nanoTime();
    }
  }

  private void welcome(SocketChannel taken) throws IOException {
    InetAddress address = ((InetSocketAddress) taken.getRemoteAddress()).getAddress();
    if (!admission.isAllowed(address)) {
      complaints.add(
          Complaints.Kind.ADDRESS, "refused " + address.getHostAddress() + ", not in `from`");
      taken.close();
      return;
    }
    Permission permission = admission.permission(address, Permission.ALL);
    PlainClient client = new PlainClient(taken, address, permission, this);
    if (!admission.admit(client)) {
      client.close();
      return;
    }
    client.register(selector);
  }

  private void openDoor() {
    if (doorShutNanos != 0 && System.nanoTime() - doorShutNanos >= ACCEPT_PAUSE_NANOS) {
      doorShutNanos = 0;
      doorKey.interestOps(SelectionKey.OP_ACCEPT);
    }
  }

  private void answerMore() {
    for (int count = more.size(); count > 0; count--) {
      more.removeFirst().serve();
    }
  }

  private void lookAtWaiting() {
    for (int i = waiting.size() - 1; i >= 0; i--) {
      PlainClient client = waiting.get(i);
      if (client.look()) {
        waiting.remove(i);
        client.serve();
      }
    }
  }

  Dispatch dispatch() {
    return dispatch;
  }

  Complaints complaints() {
    return complaints;
  }

  void left(PlainClient client) {
    admission.left(client);
  }

  /** A client's write waits for its scan. */
  void waits(PlainClient client) {
    waiting.add(client);
  }

  /** A client has more requests than his turn allows. */
  void hasMore(PlainClient client) {
    more.addLast(client);
  }

  @Override
  public int port() {
    return channel.socket().getLocalPort();
  }

  @Override
  public int clients() {
    return admission.count();
  }

  @Override
  public void close() {
    closed = true;
    selector.wakeup();
    Threads.join(thread);
  }

  private void closeQuietly() {
    try {
      channel.close();
      selector.close();
    } catch (IOException e) {
      // it takes no more clients all the same
    }
  }

  static void closeQuietly(SocketChannel socket) {
    try {
      if (socket != null) {
        socket.close();
      }
    } catch (IOException e) {
      // a socket that cannot be closed has nothing left to lose
    }
  }
}
