package bufferstop.modbus;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.util.Arrays;

/** A client that sends bytes and reads frames; it knows no more of the protocol than lengths. */
final class Client implements AutoCloseable, Answering {
  private static final int PATIENCE_MILLIS = 5000;
  private static final int HEADER = 7;

  private final Socket socket;
  private final DataInputStream in;
  private int transaction = 0xFFF0; // so that a test passes the wrap to 0

  Client(int port) throws IOException {
    this(new Socket(InetAddress.getLoopbackAddress(), port));
  }

  Client(Socket socket) throws IOException {
    this.socket = socket;
    socket.setTcpNoDelay(true);
    socket.setSoTimeout(PATIENCE_MILLIS);
    in = new DataInputStream(socket.getInputStream());
  }

  void send(byte[] bytes) throws IOException {
    socket.getOutputStream().write(bytes);
    socket.getOutputStream().flush();
  }

  void sendHex(String hex) throws IOException {
    send(Bench.bytes(hex));
  }

  /** The next frame, header included. */
  byte[] receive() throws IOException {
    byte[] header = new byte[HEADER];
    in.readFully(header);
    byte[] frame = Arrays.copyOf(header, 6 + PduCheck.word(header, 4));
    in.readFully(frame, HEADER, frame.length - HEADER);
    return frame;
  }

  /** The next so many bytes, whatever they are. */
  byte[] bytes(int count) throws IOException {
    return in.readNBytes(count);
  }

  /** All bytes until the server closes. */
  byte[] rest() throws IOException {
    return in.readAllBytes();
  }

  String receiveHex() throws IOException {
    return Bench.hex(receive());
  }

  @Override
  public String answer(String pdu) {
    return answer(Bench.UNIT, pdu);
  }

  String answer(int unit, String pdu) {
    transaction = transaction + 1 & 0xFFFF;
    try {
      send(Bench.frame(transaction, unit, Bench.bytes(pdu)));
      byte[] frame = receive();
      if (PduCheck.word(frame, 0) != transaction) {
        throw new IOException("transaction " + PduCheck.word(frame, 0) + " for " + transaction);
      }
      return Bench.hex(Arrays.copyOfRange(frame, HEADER, frame.length));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Waits for the server to close the connection, reading nothing before. */
  boolean isClosedByServer() throws IOException {
    try {
      return in.read() < 0;
    } catch (SocketException e) {
      return true;
    }
  }

  void endSending() throws IOException {
    socket.shutdownOutput();
  }

  int localPort() {
    return socket.getLocalPort();
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
