package bufferstop.modbus;

import java.io.IOException;
import java.nio.ByteBuffer;

/** What has come from a client and is not yet answered: a stream of bytes, split into requests. */
final class Received {
  private static final int SIZE = 4096; // more than a request, so that there is always room for one

  private final byte[] bytes = new byte[SIZE];
  private final ByteBuffer in = ByteBuffer.wrap(bytes); // what has come stands before its position
  private int start;

  /** A stream that cannot be split into frames any more. */
  static final class NotModbus extends IOException {
    NotModbus(int length) {
      super("a header gives length " + length);
    }

    /** Everyday under a flood of garbage: no time for a stack. */
    @Override
    public synchronized Throwable fillInStackTrace() {
      return this;
    }
  }

  /** Where what comes next is to be put; there is room once {@link #next} gave FALSE. */
  ByteBuffer room() {
    return in;
  }

  /**
   * Takes the next whole request; frames of another protocol are passed over in silence.
   *
   * @return FALSE when more must come before
   * @throws NotModbus when what comes cannot be trusted any more
   */
  boolean next(Exchange exchange) throws NotModbus {
    while (isWhole()) {
      int size = Exchange.HEADER + PduCheck.word(bytes, start + 4);
      boolean modbus = PduCheck.word(bytes, start + 2) == 0;
      if (modbus) {
        System.arraycopy(bytes, start, exchange.request, 0, size);
      }
      start += size;
      if (modbus) {
        return true;
      }
    }
    return false;
  }

  /** Whether a whole frame stands there, of whatever protocol; if not, there is room for more. */
  boolean isWhole() throws NotModbus {
    if (size() >= Exchange.HEADER) {
      int length = PduCheck.word(bytes, start + 4);
      if (length < Exchange.LEAST_LENGTH || length > Exchange.MOST_LENGTH) {
        throw new NotModbus(length);
      }
      if (size() >= Exchange.HEADER + length) {
        return true;
      }
    }
    compact();
    return false;
  }

  boolean isEmpty() {
    return size() == 0;
  }

  private int size() {
    return in.position() - start;
  }

  private void compact() {
    int rest = size();
    System.arraycopy(bytes, start, bytes, 0, rest);
    in.position(rest);
    start = 0;
  }
}
