package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import java.io.IOException;
import java.net.InetAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;

/**
 * One plain client: requests are answered in order of arrival, one at a time, each answer in one
 * send. All methods are called by the listener's thread, but {@link #close} by any.
 */
final class PlainClient implements Admission.Guest {
  private static final int TURN = 16; // requests answered before the others have their turn

  private final SocketChannel channel;
  private final InetAddress address;
  private final Permission permission;
  private final PlainListener listener;
  private final Exchange exchange = new Exchange();
  private final Received received = new Received();
  private final ByteBuffer out = ByteBuffer.wrap(exchange.answer).limit(0);
  private SelectionKey key;
  private boolean ended; // the client sends no more
  private boolean queued; // among those who have more
  private long lastNanos = System.nanoTime();
  private long stuckNanos; // since when half a request or an answer stands

  PlainClient(
      SocketChannel channel, InetAddress address, Permission permission, PlainListener listener)
      throws IOException {
    this.channel = channel;
    this.address = address;
    this.permission = permission;
    this.listener = listener;
    channel.configureBlocking(false);
    channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
    channel.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
  }

  void register(Selector selector) throws ClosedChannelException {
    key = channel.register(selector, SelectionKey.OP_READ, this);
  }

  /** The socket can be read or written. */
  void ready() {
    try {
      if (out.hasRemaining()) {
        channel.write(out);
      } else if (channel.read(received.room()) < 0) {
        ended = true;
      }
    } catch (IOException e) {
      close(); // the client has left: nobody is there to be told
      return;
    }
    serve();
  }

  /** Answers what can be answered in one turn. */
  void serve() {
    queued = false;
    try {
      for (int i = 0; i < TURN && isFree() && received.next(exchange); i++) {
        stuckNanos = 0;
        listener.dispatch().begin(exchange, permission);
        if (exchange.isWaiting()) {
          listener.waits(this);
        } else {
          send();
        }
      }
      goOn();
    } catch (Received.NotModbus e) {
      String peer = address.getHostAddress();
      listener.complaints().add(Complaints.Kind.STREAM, "closed the connection of " + peer, e);
      close();
    } catch (IOException e) {
      close();
    } catch (RuntimeException e) { // the others must not suffer from it
      listener.complaints().add(Complaints.Kind.ANSWER, "a connection failed inside", e);
      close();
    }
  }

  private boolean isFree() {
    return !exchange.isWaiting() && !out.hasRemaining();
  }

  private void send() throws IOException {
    out.clear().limit(exchange.answerLength());
    channel.write(out);
    lastNanos = System.nanoTime();
  }

  /** Looks whether a waiting write can be answered; tells whether it was. */
  boolean look() {
    if (!channel.isOpen()) {
      return true;
    }
    listener.dispatch().look(exchange);
    if (exchange.isWaiting()) {
      return false;
    }
    try {
      send();
    } catch (IOException e) {
      close();
    }
    return true;
  }

  /** Settles what to wait for next. */
  private void goOn() throws Received.NotModbus {
    if (!channel.isOpen()) {
      return;
    }
    int interest = exchange.isWaiting() ? 0 : SelectionKey.OP_READ;
    if (out.hasRemaining()) {
      interest = SelectionKey.OP_WRITE;
    } else if (isFree()) {
      if (received.isWhole()) {
        listener.hasMore(this);
        queued = true;
        interest = 0;
      } else if (ended) {
        close();
        return;
      }
    }
    boolean half = isFree() && !queued && !received.isEmpty();
    if (!half && !out.hasRemaining()) {
      stuckNanos = 0;
    } else if (stuckNanos == 0) {
      stuckNanos = System.nanoTime() | 1; // never 0
    }
    if (key.interestOps() != interest) {
      key.interestOps(interest);
    }
  }

  /** Gives up a write that waits. */
  void withdraw() {
    exchange.withdraw();
  }

  @Override
  public InetAddress address() {
    return address;
  }

  @Override
  public boolean isBusy() {
    return exchange.isWaiting() || queued;
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
    PlainListener.closeQuietly(channel);
    listener.left(this);
  }
}
