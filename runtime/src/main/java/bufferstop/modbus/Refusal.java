package bufferstop.modbus;

/** A request is answered with an exception code. Carries no stack: it is an everyday answer. */
final class Refusal extends Exception {
  // Source: Modbus Application Protocol V1.1b3, 7 [re-read].
  static final int ILLEGAL_FUNCTION = 0x01;
  static final int ILLEGAL_ADDRESS = 0x02;
  static final int ILLEGAL_VALUE = 0x03;
  static final int DEVICE_FAILURE = 0x04;
  static final int DEVICE_BUSY = 0x06;
  static final int NO_SUCH_UNIT = 0x0A;

  private final int code;

  Refusal(int code) {
    super("exception " + code, null, false, false);
    this.code = code;
  }

  int code() {
    return code;
  }

  static void unless(boolean good, int code) throws Refusal {
    if (!good) {
      throw new Refusal(code);
    }
  }
}
