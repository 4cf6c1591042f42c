package bufferstop.modbus;

import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.net.AbstractModbusListener;
import java.io.DataInput;
import java.io.DataOutput;

/** A request that was not parsed because its structure is wrong; it knows its answer. */
final class RefusedRequest extends ModbusRequest {
  private final int code;

  RefusedRequest(int function, int code) {
    setFunctionCode(function);
    this.code = code;
  }

  int code() {
    return code;
  }

  @Override
  public ModbusResponse getResponse() {
    return createExceptionResponse(code);
  }

  @Override
  public ModbusResponse createResponse(AbstractModbusListener listener) {
    return getResponse();
  }

  @Override
  public void writeData(DataOutput out) {}

  @Override
  public void readData(DataInput in) {}

  @Override
  public byte[] getMessage() {
    return new byte[0];
  }
}
