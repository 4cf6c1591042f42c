package bufferstop.modbus;

import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.IOException;

/** From the bytes of one frame to a request. Used by one thread; touches no socket. */
final class RequestParser {
  static final int HEADER = 6; // up to and with the length field
  static final int LEAST_LENGTH = 2; // unit and function
  static final int MOST_LENGTH = 300; // beyond it a stream is not taken for Modbus

  private static final int UNIT_AT = 6;
  private static final int FUNCTION_AT = 7;
  private static final int MOST_PDU = 253;

  private final byte[] frame = new byte[HEADER + MOST_LENGTH];
  private final Window window = new Window(frame);
  private final DataInputStream data = new DataInputStream(window);

  /** Where the frame is to be put before parsing. */
  byte[] frame() {
    return frame;
  }

  int protocol() {
    return PduCheck.word(frame, 2);
  }

  /** What the header says follows it. */
  int length() {
    return PduCheck.word(frame, 4);
  }

  /** The request in the frame, whose length must be {@link #LEAST_LENGTH} to MOST_LENGTH. */
  ModbusRequest parse() {
    int function = frame[FUNCTION_AT] & 0xFF;
    int pduLength = length() - 1;
    int fault =
        pduLength > MOST_PDU
            ? Refusal.ILLEGAL_VALUE
            : PduCheck.fault(frame, FUNCTION_AT, pduLength);
    ModbusRequest request =
        fault == PduCheck.GOOD ? parsed(function) : new RefusedRequest(function, fault);
    request.setTransactionID(PduCheck.word(frame, 0));
    request.setUnitID(frame[UNIT_AT] & 0xFF);
    return request;
  }

  private ModbusRequest parsed(int function) {
    ModbusRequest request = ModbusRequest.createModbusRequest(function);
    window.show(FUNCTION_AT + 1, HEADER + length());
    try {
      request.readData(data);
      return request;
    } catch (IOException | RuntimeException e) {
      // the library takes offence at a frame that was found good: the client still gets an answer
      return new RefusedRequest(function, Refusal.DEVICE_FAILURE);
    }
  }

  private static final class Window extends ByteArrayInputStream {
    Window(byte[] bytes) {
      super(bytes);
    }

    void show(int from, int to) {
      pos = from;
      count = to;
    }
  }
}
