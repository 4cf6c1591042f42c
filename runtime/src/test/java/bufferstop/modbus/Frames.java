package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import java.util.Arrays;
import java.util.List;

/** Requests answered without sockets: bytes in, bytes out. */
final class Frames implements Answering {
  private static final int HEADER = 7;

  private final Exchange exchange = new Exchange();
  private final Dispatch dispatch;
  private final Runnable pause;
  private Permission client = Permission.ALL;

  Frames(Runnable pause, long writeMillis, Unit... units) {
    this.pause = pause;
    dispatch = new Dispatch(new Units(List.of(units)), writeMillis, new Complaints("hmi"));
  }

  /** From now on for a client that may no more than this. */
  Frames as(Permission permission) {
    client = permission;
    return this;
  }

  @Override
  public String answer(String pdu) {
    return answer(Bench.UNIT, pdu);
  }

  String answer(int unit, String pdu) {
    byte[] frame = response(0x1234, unit, Bench.bytes(pdu));
    return Bench.hex(Arrays.copyOfRange(frame, HEADER, frame.length));
  }

  /** The whole frame of an answer. */
  byte[] response(int transaction, int unit, byte[] pdu) {
    byte[] frame = Bench.frame(transaction, unit, pdu);
    System.arraycopy(frame, 0, exchange.request, 0, frame.length);
    dispatch.begin(exchange, client);
    while (exchange.isWaiting()) {
      pause.run();
      dispatch.look(exchange);
    }
    return Arrays.copyOf(exchange.answer, exchange.answerLength());
  }
}
