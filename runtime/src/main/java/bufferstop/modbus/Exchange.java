package bufferstop.modbus;

import bufferstop.image.WriteRequest;

/** One connection's request and its answer, as frames. One thread at a time uses it. */
final class Exchange {
  static final int HEADER = 6; // up to and with the length field
  static final int FUNCTION_AT = 7;
  static final int LEAST_LENGTH = 2; // unit and function
  static final int MOST_LENGTH = 300; // beyond it a stream is not taken for Modbus
  static final int MOST_PDU = 253;

  final byte[] request = new byte[HEADER + MOST_LENGTH];
  final byte[] answer = new byte[FUNCTION_AT + MOST_PDU];
  private int answerLength;

  // of a write that no published scan shows yet
  private Unit unit;
  private WriteRequest write;
  private long offeredNanos;

  /** What the header says follows it. */
  int length() {
    return PduCheck.word(request, 4);
  }

  int unitId() {
    return request[HEADER] & 0xFF;
  }

  int function() {
    return request[FUNCTION_AT] & 0xFF;
  }

  int pduLength() {
    return length() - 1;
  }

  /** A field of the request's PDU; its length has been checked. */
  int word(int fromFunction) {
    return PduCheck.word(request, FUNCTION_AT + fromFunction);
  }

  /** Bytes of the answer, header and all. */
  int answerLength() {
    return answerLength;
  }

  /** Completes the answer around a PDU that has been put behind its header. */
  void answered(int pduLength) {
    answer[0] = request[0];
    answer[1] = request[1];
    answer[2] = 0;
    answer[3] = 0;
    answer[4] = (byte) (pduLength + 1 >> 8);
    answer[5] = (byte) (pduLength + 1);
    answer[6] = request[6];
    answerLength = FUNCTION_AT + pduLength;
    write = null;
    unit = null;
  }

  /** Answers with an exception. */
  void refused(int code) {
    answer[FUNCTION_AT] = (byte) (function() | 0x80);
    answer[FUNCTION_AT + 1] = (byte) code;
    answered(2);
  }

  /** Answers with the first bytes of the request, as most writes are. */
  void echoed(int pduLength) {
    System.arraycopy(request, FUNCTION_AT, answer, FUNCTION_AT, pduLength);
    answered(pduLength);
  }

  /** Begins to wait for a scan. */
  void await(Unit asked, WriteRequest offered, long nowNanos) {
    unit = asked;
    write = offered;
    offeredNanos = nowNanos;
  }

  boolean isWaiting() {
    return write != null;
  }

  Unit unit() {
    return unit;
  }

  /** Whether a published scan shows the write. */
  boolean isShown() {
    long publication = write.takenBy();
    return publication >= 0 && unit.snapshots().published() >= publication;
  }

  long waitedNanos(long nowNanos) {
    return nowNanos - offeredNanos;
  }

  /**
   * Gives the write up, if no scan has taken it.
   *
   * @return whether it will never be taken
   */
  boolean withdraw() {
    return write == null || write.withdraw();
  }
}
