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
  private static final int BUFFER = 4096;

  private final SocketChannel channel;
  private final InetAddress address;
  private final Permission permission;
  private final PlainListener listener;
  private final Exchange exchange = new Exchange();
  private final byte[] received = new byte[BUFFER];
  private final ByteBuffer in = ByteBuffer.wrap(received); // what was read stands before position
  private final ByteBuffer out = ByteBuffer.wrap(exchange.answer).limit(0);
  private int start; // of what is not yet answered
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
      } else if (channel.read(in) < 0) {
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
      for (int i = 0; i < TURN && isFree() && nextRequest(); i++) {
        stuckNanos = 0;
        listener.dispatch().begin(exchange, permission);
        if (exchange.isWaiting()) {
          listener.waits(this);
        } else {
          send();
        }
      }
      goOn();
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

  /** Takes the next whole request from what was received; those of other protocols are dropped. */
  private boolean nextRequest() throws IOException {
    while (in.position() - start >= Exchange.HEADER) {
      int length = PduCheck.word(received, start + 4);
      if (length < Exchange.LEAST_LENGTH || length > Exchange.MOST_LENGTH) {
        listener
            .complaints()
            .add(
                Complaints.Kind.STREAM,
                "closed the connection of "
                    + address.getHostAddress()
                    + ": a header gives length "
                    + length);
        throw new IOException("no Modbus");
      }
      int size = Exchange.HEADER + length;
      if (in.position() - start < size) {
        return false;
      }
      boolean modbus = PduCheck.word(received, start + 2) == 0;
      System.arraycopy(received, start, exchange.request, 0, size);
      start += size;
      if (modbus) {
        return true;
      }
    }
    return false;
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
  private void goOn() {
    if (!channel.isOpen()) {
      return;
    }
    int interest = exchange.isWaiting() ? 0 : SelectionKey.OP_READ;
    if (out.hasRemaining()) {
      interest = SelectionKey.OP_WRITE;
    } else if (isFree()) {
      if (isWholeRequest()) {
        listener.hasMore(this);
        queued = true;
        interest = 0;
      } else if (ended) {
        close();
        return;
      } else {
        compact();
      }
    }
    boolean half = isFree() && !queued && in.position() > start;
    if (!half && !out.hasRemaining()) {
      stuckNanos = 0;
    } else if (stuckNanos == 0) {
      stuckNanos = System.nanoTime() | 1; // never 0
    }
    if (key.interestOps() != interest) {
      key.interestOps(interest);
    }
  }

  private boolean isWholeRequest() {
    int size = in.position() - start;
    return size >= Exchange.HEADER && size >= Exchange.HEADER + PduCheck.word(received, start + 4);
  }

  private void compact() {
    int rest = in.position() - start;
    System.arraycopy(received, start, received, 0, rest);
    in.position(rest);
    start = 0;
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
