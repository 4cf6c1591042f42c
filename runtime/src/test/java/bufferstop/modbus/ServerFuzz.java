package bufferstop.modbus;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Type;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.util.Arrays;

/**
 * A target for the fuzzer: whatever bytes come on one connection, every answer on it is a whole
 * frame, and a good client beside it gets each of its answers. One server serves all inputs, so
 * that what one of them breaks is found by the next.
 */
public final class ServerFuzz {
  private static final int MOST_FRAME = 260;
  private static final byte[] QUESTION = Bench.frame(7, Bench.UNIT, Bench.bytes("03 00 00 00 02"));
  private static final byte[] ANSWER = Bench.frame(7, Bench.UNIT, Bench.bytes("03 04 00 00 00 00"));

  private static RunningBench running;
  private static Client good;

  private ServerFuzz() {}

  /** Called once by the fuzzer; registers 0 and 1 are only read, so that their values are known. */
  public static void fuzzerInitialize() throws IOException {
    Bench bench = new Bench();
    for (int at = 0; at < 2; at++) {
      bench.readOnly(Table.HOLDING_REGISTER, at, Type.UINT, WordOrder.HIGH_WORD_FIRST);
    }
    bench
        .operators(Table.COIL, 0, 99, Type.BOOL)
        .operators(Table.HOLDING_REGISTER, 2, 99, Type.UINT)
        .operator(Table.HOLDING_REGISTER, 100, Type.LREAL)
        .gap(Table.HOLDING_REGISTER, 104, 8)
        .scanned();
    running = new RunningBench(bench);
    good = running.client();
  }

  /** Called for each input. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    try (Socket bad = new Socket(InetAddress.getLoopbackAddress(), running.server.port())) {
      bad.setSoTimeout(5000);
      bad.setTcpNoDelay(true);
      try {
        bad.getOutputStream().write(input);
        bad.shutdownOutput();
      } catch (IOException e) {
        // closed before all was sent: it was no Modbus
      }
      askGood();
      readAnswers(bad.getInputStream());
    }
  }

  private static void askGood() throws IOException {
    good.send(QUESTION);
    byte[] answer = good.receive();
    if (!Arrays.equals(ANSWER, answer)) {
      throw new IllegalStateException("the good client is answered " + Bench.hex(answer));
    }
  }

  private static void readAnswers(InputStream in) {
    try {
      byte[] header = in.readNBytes(7);
      while (header.length == 7) {
        int length = PduCheck.word(header, 4);
        if (length < 2 || length > MOST_FRAME - 6 || PduCheck.word(header, 2) != 0) {
          throw new IllegalStateException("an answer begins with " + Bench.hex(header));
        }
        byte[] rest = in.readNBytes(length - 1);
        if (rest.length < length - 1) {
          throw new IllegalStateException("half an answer: " + Bench.hex(rest));
        }
        header = in.readNBytes(7);
      }
    } catch (IOException e) {
      // reset, since what was sent after the server closed could not be delivered
    }
  }
}
