package bufferstop.bench.modbus;

import java.io.DataInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.Arrays;

/** One well-behaved client, one request at a time. */
final class Hmi implements AutoCloseable {
  private static final int PATIENCE_MILLIS = 5000;

  private final Socket socket;
  private final DataInputStream in;

  Hmi(int port) throws IOException {
    socket = new Socket(InetAddress.getLoopbackAddress(), port);
    socket.setTcpNoDelay(true);
    socket.setSoTimeout(PATIENCE_MILLIS);
    in = new DataInputStream(socket.getInputStream());
  }

  /**
   * Sends a PDU and waits for the answer.
   *
   * @return nanoseconds it took
   * @throws IOException when the answer is not that of the function
   */
  long ask(byte... pdu) throws IOException {
    byte[] frame = new byte[7 + pdu.length];
    frame[4] = (byte) (pdu.length + 1 >> 8);
    frame[5] = (byte) (pdu.length + 1);
    frame[6] = 1;
    System.arraycopy(pdu, 0, frame, 7, pdu.length);
    long start = System.nanoTime();
    socket.getOutputStream().write(frame);
    byte[] header = new byte[7];
    in.readFully(header);
    byte[] answer = new byte[((header[4] & 0xFF) << 8 | header[5] & 0xFF) - 1];
    in.readFully(answer);
    long nanos = System.nanoTime() - start;
    if (answer[0] != pdu[0]) {
      throw new IOException("answered " + Arrays.toString(answer));
    }
    return nanos;
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
