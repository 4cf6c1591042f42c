package bufferstop.modbus;

import java.io.IOException;

/** An answer that breaks the protocol; what it says is not to be used, nor its connection. */
final class BrokenAnswer extends IOException {
  private static final long serialVersionUID = 1L;

  BrokenAnswer(String message) {
    super(message);
  }
}
