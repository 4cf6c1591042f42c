package bufferstop.modbus;

import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A normal answer whose bytes after the function code are ready to send. */
final class ReadyResponse extends ModbusResponse {
  private final byte[] message;

  ReadyResponse(ModbusRequest request, byte[] message) {
    setTransactionID(request.getTransactionID());
    setUnitID(request.getUnitID());
    setFunctionCode(request.getFunctionCode());
    this.message = message;
  }

  @Override
  public void writeData(DataOutput out) throws IOException {
    out.write(message);
  }

  @Override
  public void readData(DataInput in) {
    throw new UnsupportedOperationException("an answer to send, not to read");
  }

  @Override
  public byte[] getMessage() {
    return message;
  }
}
