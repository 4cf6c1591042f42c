package bufferstop.modbus;

import bufferstop.model.ModbusMap.Table;
import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.msg.MaskWriteRegisterRequest;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadWriteMultipleRequest;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;

/**
 * From a request to its answer, whatever happens. One connection uses one of these. Checks come in
 * the order of each function's own state diagram: structure was judged before the request was
 * parsed, then come addresses, then values against their points.
 */
final class Dispatch {
  // a server reached by its own address answers these two as well, whatever its unit
  private static final int UNIT_DIRECT = 0xFF;
  private static final int UNIT_ZERO = 0;

  private final MapImage map;
  private final int unit;
  private final Reads reads;
  private final Handover handover;
  private final Complaints complaints;

  Dispatch(MapImage map, int unit, Reads reads, Handover handover, Complaints complaints) {
    this.map = map;
    this.unit = unit;
    this.reads = reads;
    this.handover = handover;
    this.complaints = complaints;
  }

  ModbusResponse answer(ModbusRequest request) {
    try {
      return new ReadyResponse(request, message(mapOf(request.getUnitID()), request));
    } catch (Refusal refusal) {
      return request.createExceptionResponse(refusal.code());
    } catch (RuntimeException e) {
      complaints.add(Complaints.Kind.ANSWER, "a request failed inside and was answered 04", e);
      return request.createExceptionResponse(Refusal.DEVICE_FAILURE);
    }
  }

  private MapImage mapOf(int asked) throws Refusal {
    boolean mine = asked == unit || asked == UNIT_DIRECT || asked == UNIT_ZERO;
    Refusal.unless(mine, Refusal.NO_SUCH_UNIT);
    return map;
  }

  private byte[] message(MapImage image, ModbusRequest request) throws Refusal {
    if (request instanceof RefusedRequest refused) {
      throw new Refusal(refused.code());
    }
    return switch (request.getFunctionCode()) {
      case Modbus.READ_COILS -> readCoils(image, (ReadCoilsRequest) request);
      case Modbus.READ_INPUT_DISCRETES ->
          readDiscreteInputs(image, (ReadInputDiscretesRequest) request);
      case Modbus.READ_MULTIPLE_REGISTERS ->
          readHolding(image, (ReadMultipleRegistersRequest) request);
      case Modbus.READ_INPUT_REGISTERS -> readInput(image, (ReadInputRegistersRequest) request);
      case Modbus.WRITE_COIL -> writeCoil(image, (WriteCoilRequest) request);
      case Modbus.WRITE_SINGLE_REGISTER ->
          writeRegister(image, (WriteSingleRegisterRequest) request);
      case Modbus.WRITE_MULTIPLE_COILS -> writeCoils(image, (WriteMultipleCoilsRequest) request);
      case Modbus.WRITE_MULTIPLE_REGISTERS ->
          writeRegisters(image, (WriteMultipleRegistersRequest) request);
      case Modbus.MASK_WRITE_REGISTER -> maskWrite(image, (MaskWriteRegisterRequest) request);
      case Modbus.READ_WRITE_MULTIPLE -> writeAndRead(image, (ReadWriteMultipleRequest) request);
      default -> throw new Refusal(Refusal.ILLEGAL_FUNCTION);
    };
  }

  private byte[] readCoils(MapImage image, ReadCoilsRequest r) throws Refusal {
    return reads.bits(image.table(Table.COIL), r.getReference(), r.getBitCount());
  }

  private byte[] readDiscreteInputs(MapImage image, ReadInputDiscretesRequest r) throws Refusal {
    return reads.bits(image.table(Table.DISCRETE_INPUT), r.getReference(), r.getBitCount());
  }

  private byte[] readHolding(MapImage image, ReadMultipleRegistersRequest r) throws Refusal {
    return reads.registers(image.table(Table.HOLDING_REGISTER), r.getReference(), r.getWordCount());
  }

  private byte[] readInput(MapImage image, ReadInputRegistersRequest r) throws Refusal {
    return reads.registers(image.table(Table.INPUT_REGISTER), r.getReference(), r.getWordCount());
  }

  private byte[] writeCoil(MapImage image, WriteCoilRequest r) throws Refusal {
    handover.give(WriteBatch.coils(image.table(Table.COIL), r.getReference(), 1, i -> r.getCoil()));
    return words(r.getReference(), r.getCoil() ? 0xFF00 : 0);
  }

  private byte[] writeRegister(MapImage image, WriteSingleRegisterRequest r) throws Refusal {
    int value = r.getRegister().toUnsignedShort();
    handover.give(
        WriteBatch.registers(image.table(Table.HOLDING_REGISTER), r.getReference(), 1, i -> value));
    return words(r.getReference(), value);
  }

  private byte[] writeCoils(MapImage image, WriteMultipleCoilsRequest r) throws Refusal {
    handover.give(
        WriteBatch.coils(
            image.table(Table.COIL), r.getReference(), r.getBitCount(), r::getCoilStatus));
    return words(r.getReference(), r.getBitCount());
  }

  private byte[] writeRegisters(MapImage image, WriteMultipleRegistersRequest r) throws Refusal {
    handover.give(
        WriteBatch.registers(
            image.table(Table.HOLDING_REGISTER),
            r.getReference(),
            r.getWordCount(),
            r::getRegisterValue));
    return words(r.getReference(), r.getWordCount());
  }

  private byte[] maskWrite(MapImage image, MaskWriteRegisterRequest r) throws Refusal {
    handover.give(
        WriteBatch.masked(
            image.table(Table.HOLDING_REGISTER), r.getReference(), r.getAndMask(), r.getOrMask()));
    return words(r.getReference(), r.getAndMask(), r.getOrMask());
  }

  private byte[] writeAndRead(MapImage image, ReadWriteMultipleRequest r) throws Refusal {
    AddressTable table = image.table(Table.HOLDING_REGISTER);
    int from = r.getReadReference();
    int quantity = r.getReadWordCount();
    // a bad address to read leaves the write undone
    Refusal.unless(table.covers(from, quantity), Refusal.ILLEGAL_ADDRESS);
    handover.give(
        WriteBatch.registers(
            table, r.getWriteReference(), r.getWriteWordCount(), r::getReadRegisterValue));
    // the ring gives its newest image: the one that shows the write, or a later one
    return reads.registers(table, from, quantity);
  }

  private static byte[] words(int... words) {
    byte[] message = new byte[2 * words.length];
    for (int i = 0; i < words.length; i++) {
      message[2 * i] = (byte) (words[i] >> 8);
      message[2 * i + 1] = (byte) words[i];
    }
    return message;
  }
}
