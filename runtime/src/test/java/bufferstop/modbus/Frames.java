package bufferstop.modbus;

import com.ghgande.j2mod.modbus.msg.ModbusResponse;

/** Requests answered without sockets: bytes in, bytes out. */
final class Frames implements Answering {
  private final RequestParser parser = new RequestParser();
  private final Dispatch dispatch;

  Frames(Dispatch dispatch) {
    this.dispatch = dispatch;
  }

  @Override
  public String answer(String pdu) {
    return answer(Bench.UNIT, pdu);
  }

  String answer(int unit, String pdu) {
    ModbusResponse response = response(0x1234, unit, Bench.bytes(pdu));
    byte[] message = response.getMessage();
    byte[] answer = new byte[1 + message.length];
    answer[0] = (byte) response.getFunctionCode();
    System.arraycopy(message, 0, answer, 1, message.length);
    return Bench.hex(answer);
  }

  ModbusResponse response(int transaction, int unit, byte[] pdu) {
    byte[] frame = Bench.frame(transaction, unit, pdu);
    System.arraycopy(frame, 0, parser.frame(), 0, frame.length);
    return dispatch.answer(parser.parse());
  }
}
