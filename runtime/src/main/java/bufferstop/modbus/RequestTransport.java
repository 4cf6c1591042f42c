package bufferstop.modbus;

import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.io.ModbusTCPTransport;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.net.AbstractModbusListener;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;

/**
 * Reads requests from a socket with its own eyes; answers go out as the library sends them, one
 * frame a write. The inherited reader is never used: it takes any protocol identifier and length.
 */
final class RequestTransport extends ModbusTCPTransport {
  private static final int BUFFER = 4096;

  private final InputStream in;
  private final RequestParser parser = new RequestParser();

  RequestTransport(Socket socket) throws IOException {
    super(socket);
    setTimeout(0); // silence is no fault; dead peers are found by keep-alive
    in = new BufferedInputStream(socket.getInputStream(), BUFFER);
  }

  /** A stream that cannot be split into frames any more. */
  static final class NotModbus extends ModbusIOException {
    NotModbus(String message) {
      super(message);
    }
  }

  /**
   * Waits for the next request; frames of another protocol are passed over in silence.
   *
   * @throws NotModbus when the stream cannot be trusted any more
   * @throws ModbusIOException when the client has left
   */
  @Override
  public ModbusRequest readRequest(AbstractModbusListener unused) throws ModbusIOException {
    do {
      fill(0, RequestParser.HEADER);
      int length = parser.length();
      if (length < RequestParser.LEAST_LENGTH || length > RequestParser.MOST_LENGTH) {
        throw new NotModbus("a header gives length " + length);
      }
      fill(RequestParser.HEADER, length);
    } while (parser.protocol() != 0);
    return parser.parse();
  }

  private void fill(int from, int count) throws ModbusIOException {
    try {
      if (in.readNBytes(parser.frame(), from, count) < count) {
        throw new ModbusIOException("end of stream", true);
      }
    } catch (IOException e) {
      throw new ModbusIOException("connection lost", e);
    }
  }
}
