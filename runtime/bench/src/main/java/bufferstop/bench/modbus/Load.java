package bufferstop.bench.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.HdrHistogram.Histogram;

/**
 * A closed loop: some connections, each with some requests in flight; an answer is followed by the
 * next request at once. One thread, which waits in a selector, or for one connection in its socket.
 */
final class Load implements AutoCloseable {
  private static final int MOST_NANOS = 2_000_000_000;

  private final Selector selector = Selector.open();
  private final List<Peer> peers = new ArrayList<>();
  private final int answerSize;
  private final byte[] request;
  private final boolean alone;
  private Histogram latencies = histogram();

  /** What a load measured. */
  record Figures(double perSecond, Histogram latencies) {}

  /**
   * Connects.
   *
   * @param request a frame of a read
   * @param answerSize bytes of its answer
   */
  Load(int port, byte[] request, int answerSize, int connections, int inFlight) throws IOException {
    this.request = request;
    this.answerSize = answerSize;
    this.alone = connections == 1;
    for (int i = 0; i < connections; i++) {
      SocketChannel channel =
          SocketChannel.open(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
      channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
      Peer peer = new Peer(channel, inFlight);
      if (!alone) {
        channel.configureBlocking(false);
        channel.register(selector, SelectionKey.OP_READ, peer);
      }
      peers.add(peer);
    }
  }

  private static Histogram histogram() {
    return new Histogram(MOST_NANOS, 3);
  }

  /** Keeps the load up for a time; requests stay in flight between two runs. */
  Figures run(long millis) throws IOException {
    latencies = histogram();
    for (Peer peer : peers) {
      peer.fill();
    }
    long start = System.nanoTime();
    long end = start + TimeUnit.MILLISECONDS.toNanos(millis);
    while (System.nanoTime() < end) {
      if (alone) {
        peers.get(0).receive();
      } else {
        selector.select(this::ready, 1000);
      }
    }
    double seconds = (System.nanoTime() - start) / 1e9;
    return new Figures(latencies.getTotalCount() / seconds, latencies);
  }

  private void ready(SelectionKey key) {
    try {
      ((Peer) key.attachment()).receive();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    for (Peer peer : peers) {
      peer.channel.close();
    }
    selector.close();
  }

  private final class Peer {
    private final SocketChannel channel;
    private final long[] sentNanos;
    private final ByteBuffer out = ByteBuffer.allocateDirect(request.length).put(request);
    private final ByteBuffer in = ByteBuffer.allocateDirect(64 * 1024);
    private int received; // bytes of the answer that is coming
    private int sent; // requests ever
    private int answered; // answers ever

    Peer(SocketChannel channel, int inFlight) {
      this.channel = channel;
      this.sentNanos = new long[inFlight];
    }

    void fill() throws IOException {
      while (sent - answered < sentNanos.length) {
        send();
      }
    }

    private void send() throws IOException {
      sentNanos[sent++ % sentNanos.length] = System.nanoTime();
      out.rewind();
      while (out.hasRemaining()) {
        channel.write(out);
      }
    }

    void receive() throws IOException {
      in.clear();
      int count = channel.read(in);
      if (count < 0) {
        throw new IOException("the server closed a connection under load");
      }
      received += count;
      long now = System.nanoTime();
      while (received >= answerSize) {
        received -= answerSize;
        long nanos = now - sentNanos[answered++ % sentNanos.length];
        latencies.recordValue(Math.min(MOST_NANOS, nanos));
        send();
      }
    }
  }
}
