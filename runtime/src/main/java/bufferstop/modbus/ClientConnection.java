package bufferstop.modbus;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.concurrent.TimeUnit;

/**
 * One connection to a server, one question outstanding. After anything but a whole answer it is to
 * be closed and never used again, so that a late answer cannot be taken for that of another
 * question. One thread uses it.
 *
 * <p>Source: Modbus Messaging on TCP/IP Implementation Guide V1.0b, 4.4.1 [re-read].
 */
final class ClientConnection implements AutoCloseable {
  private static final int HEADER = 7; // with the unit
  private static final int LEAST_LENGTH = 2;
  private static final int MOST_LENGTH = 254;
  private static final int EXCEPTION = 0x80;

  private final Socket socket = new Socket();
  private final byte[] out = new byte[HEADER + Exchange.MOST_PDU];
  private final byte[] in = new byte[HEADER + MOST_LENGTH];
  private InputStream stream;
  private int transaction;

  /**
   * Connects.
   *
   * @throws IOException when the server is not there
   */
  ClientConnection(String host, int port, long answerMicros) throws IOException {
    try {
      socket.setTcpNoDelay(true);
      socket.setKeepAlive(true);
      socket.connect(new InetSocketAddress(host, port), millis(answerMicros));
      stream = socket.getInputStream();
    } catch (IOException e) {
      close();
      throw e;
    }
  }

  private static int millis(long micros) {
    return (int) Math.max(1, TimeUnit.MICROSECONDS.toMillis(micros));
  }

  /**
   * Asks and waits for the answer to just this.
   *
   * @param pdu function code and data
   * @param length of them
   * @param answerMicros how long it may take
   * @return length of the answer's PDU, see {@link #answer}
   * @throws Refusal when the server answers with an exception
   * @throws IOException when no whole answer came; the connection is closed
   */
  int ask(int unit, byte[] pdu, int length, long answerMicros) throws IOException, Refusal {
    try {
      transaction = transaction + 1 & 0xFFFF;
      Words.put(out, 0, transaction);
      Words.put(out, 2, 0);
      Words.put(out, 4, length + 1);
      out[6] = (byte) unit;
      System.arraycopy(pdu, 0, out, HEADER, length);
      socket.getOutputStream().write(out, 0, HEADER + length);
      long deadline = System.nanoTime() + TimeUnit.MICROSECONDS.toNanos(answerMicros);
      int answered = await(unit, deadline);
      int function = in[HEADER] & 0xFF;
      if (function == (pdu[0] | EXCEPTION) && answered == 2) {
        throw new Refusal(in[HEADER + 1] & 0xFF);
      }
      if (function != pdu[0]) {
        throw new BrokenAnswer("answered with function " + function + " instead of " + pdu[0]);
      }
      return answered;
    } catch (IOException e) {
      close();
      throw e;
    }
  }

  /** Answers to other questions are thrown away. */
  private int await(int unit, long deadline) throws IOException {
    while (true) {
      read(0, HEADER, deadline);
      int protocol = PduCheck.word(in, 2);
      int length = PduCheck.word(in, 4);
      if (protocol != 0 || length < LEAST_LENGTH || length > MOST_LENGTH) {
        throw new BrokenAnswer(
            "an answer of protocol " + protocol + " with the length " + length + ", no Modbus");
      }
      read(HEADER, length - 1, deadline);
      if (PduCheck.word(in, 0) != transaction) {
        continue;
      }
      if ((in[6] & 0xFF) != unit) {
        throw new BrokenAnswer("unit " + (in[6] & 0xFF) + " answered instead of unit " + unit);
      }
      return length - 1;
    }
  }

  private void read(int at, int count, long deadline) throws IOException {
    int have = 0;
    while (have < count) {
      long left = TimeUnit.NANOSECONDS.toMillis(deadline - System.nanoTime());
      if (left <= 0) {
        throw new SocketTimeoutException("no answer in time");
      }
      socket.setSoTimeout((int) left);
      int got = stream.read(in, at + have, count - have);
      if (got < 0) {
        throw new EOFException("the server closed the connection");
      }
      have += got;
    }
  }

  /** The byte of the last answer's PDU. */
  int answer(int at) {
    return in[HEADER + at] & 0xFF;
  }

  /** Copies data of the last answer's PDU. */
  void copy(int from, byte[] into, int count) {
    System.arraycopy(in, HEADER + from, into, 0, count);
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // it is gone either way
    }
  }
}
