package bufferstop.modbus;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SocketChannel;

/**
 * Memory that the system reads and writes itself, shared by all clients of one thread: without it
 * each call would look for some.
 */
final class SocketBuffers {
  private static final int SIZE = 4096;

  private final ByteBuffer in = ByteBuffer.allocateDirect(SIZE);
  private final ByteBuffer out = ByteBuffer.allocateDirect(SIZE);

  /**
   * Reads what is there.
   *
   * @param room where it goes, as far as there is any
   * @return FALSE at the end of the stream
   */
  boolean read(SocketChannel channel, ByteBuffer room) throws IOException {
    in.clear().limit(Math.min(SIZE, room.remaining()));
    int count = channel.read(in);
    if (count > 0) {
      room.put(in.flip());
    }
    return count >= 0;
  }

  /**
   * Sends in one piece, as far as the socket takes it.
   *
   * @param length at most 4096
   * @return how many bytes it took
   */
  int write(SocketChannel channel, byte[] bytes, int length) throws IOException {
    out.clear().put(bytes, 0, length).flip();
    return channel.write(out);
  }
}
