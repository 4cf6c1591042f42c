package bufferstop.modbus;

import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * A server that answers holding registers with their own address times 3, and does wrong at chosen
 * addresses, which are its faults. One client at a time.
 */
final class CrookedServer implements AutoCloseable {
  static final int GOOD = 0;
  static final int NEXT_TRANSACTION = 1; // and nothing else
  static final int OTHER_FUNCTION = 2;
  static final int TOO_FEW = 3;
  static final int PROTOCOL_FIVE = 4;
  static final int LATE = 5; // until released
  static final int NO_PATH = 6; // exception 0A
  static final int NO_ANSWER_BEHIND = 7; // exception 0B
  static final int CLOSES = 8;
  static final int SILENT = 9;
  static final int OTHER_UNIT = 10;
  static final int BYTE_BY_BYTE = 11;
  static final int FOREIGN_FIRST = 12; // another transaction's answer, then the right one
  static final int WRONG_COUNT = 13; // the byte count does not fit what follows
  static final int ABSURD_LENGTH = 14;
  static final int WRONG_ECHO = 15; // of a write
  static final int TWICE = 16; // the same answer twice

  final AtomicInteger connections = new AtomicInteger();
  final AtomicInteger writes = new AtomicInteger();
  final CountDownLatch late = new CountDownLatch(1);
  private final ServerSocket server;
  private volatile Socket client;

  CrookedServer() throws IOException {
    server = new ServerSocket(0, 16, InetAddress.getLoopbackAddress());
    Thread thread = new Thread(this::serve, "crooked server");
    thread.setDaemon(true);
    thread.start();
  }

  int port() {
    return server.getLocalPort();
  }

  private void serve() {
    while (!server.isClosed()) {
      try (Socket taken = server.accept()) {
        client = taken;
        taken.setTcpNoDelay(true);
        connections.incrementAndGet();
        DataInputStream in = new DataInputStream(taken.getInputStream());
        while (answer(in, taken.getOutputStream())) {
          // the next question
        }
      } catch (EOFException | SocketException e) {
        // the client went, or the test ended
      } catch (IOException | InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  private boolean answer(DataInputStream in, OutputStream out)
      throws IOException, InterruptedException {
    int transaction = in.readUnsignedShort();
    in.readUnsignedShort();
    byte[] request = new byte[in.readUnsignedShort()];
    in.readFully(request);
    int unit = request[0];
    int function = request[1];
    int address = PduCheck.word(request, 2);
    boolean write = function == 5 || function == 6 || function == 15 || function == 16;
    if (write) {
      writes.incrementAndGet();
    }
    int quantity = write ? 0 : PduCheck.word(request, 4);
    byte[] pdu = write ? echo(request) : registers(function, address, quantity);
    if (address == CLOSES) {
      return false;
    }
    int[] header = {transaction, unit, function, quantity};
    reply(address, header, pdu, out);
    return true;
  }

  private void reply(int address, int[] header, byte[] pdu, OutputStream out)
      throws IOException, InterruptedException {
    int transaction = header[0];
    int unit = header[1];
    int function = header[2];
    int quantity = header[3];
    switch (address) {
      case NEXT_TRANSACTION -> send(out, transaction + 1, 0, unit, pdu);
      case OTHER_FUNCTION -> {
        pdu[0]++;
        send(out, transaction, 0, unit, pdu);
      }
      case TOO_FEW -> send(out, transaction, 0, unit, registers(function, address, quantity - 1));
      case PROTOCOL_FIVE -> send(out, transaction, 5, unit, pdu);
      case LATE -> {
        late.await();
        send(out, transaction, 0, unit, pdu);
      }
      case NO_PATH -> send(out, transaction, 0, unit, refusal(function, 0x0A));
      case NO_ANSWER_BEHIND -> send(out, transaction, 0, unit, refusal(function, 0x0B));
      case SILENT -> {}
      case OTHER_UNIT -> send(out, transaction, 0, unit + 1, pdu);
      case BYTE_BY_BYTE -> {
        for (byte b : frame(transaction, 0, unit, pdu)) {
          out.write(b);
          out.flush();
        }
      }
      case FOREIGN_FIRST -> {
        byte[] foreign = registers(function, 1000, quantity);
        send(out, transaction - 1, 0, unit, foreign);
        send(out, transaction, 0, unit, pdu);
      }
      case WRONG_COUNT -> {
        pdu[1] += 2;
        send(out, transaction, 0, unit, pdu);
      }
      case ABSURD_LENGTH -> out.write(new byte[] {0, 1, 0, 0, 100, 0, 1, 3});
      case WRONG_ECHO -> {
        pdu[4]++;
        send(out, transaction, 0, unit, pdu);
      }
      case TWICE -> {
        send(out, transaction, 0, unit, pdu);
        send(out, transaction, 0, unit, pdu);
      }
      default -> send(out, transaction, 0, unit, pdu);
    }
  }

  private static byte[] echo(byte[] request) {
    byte[] pdu = new byte[5];
    System.arraycopy(request, 1, pdu, 0, 5);
    return pdu;
  }

  private static byte[] registers(int function, int address, int quantity) {
    byte[] pdu = new byte[2 + 2 * quantity];
    pdu[0] = (byte) function;
    pdu[1] = (byte) (2 * quantity);
    for (int i = 0; i < quantity; i++) {
      Words.put(pdu, 2 + 2 * i, 3 * (address + i));
    }
    return pdu;
  }

  private static byte[] refusal(int function, int code) {
    return new byte[] {(byte) (function | 0x80), (byte) code};
  }

  private static byte[] frame(int transaction, int protocol, int unit, byte[] pdu) {
    byte[] frame = new byte[7 + pdu.length];
    Words.put(frame, 0, transaction);
    Words.put(frame, 2, protocol);
    Words.put(frame, 4, pdu.length + 1);
    frame[6] = (byte) unit;
    System.arraycopy(pdu, 0, frame, 7, pdu.length);
    return frame;
  }

  private static void send(OutputStream out, int transaction, int protocol, int unit, byte[] pdu)
      throws IOException {
    out.write(frame(transaction, protocol, unit, pdu));
    out.flush();
  }

  @Override
  public void close() throws IOException {
    late.countDown();
    server.close();
    if (client != null) {
      client.close();
    }
  }
}
