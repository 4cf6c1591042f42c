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
  private final Units units;
  private final Reads reads = new Reads();
  private final Handover handover;
  private final Complaints complaints;

  /**
   * A dispatch.
   *
   * @param writeMillis how long a write may wait for a scan to take it
   * @param pause called between two looks at what was published
   */
  Dispatch(Units units, long writeMillis, Runnable pause, Complaints complaints) {
    this.units = units;
    this.handover = new Handover(writeMillis, pause);
    this.complaints = complaints;
  }

  ModbusResponse answer(ModbusRequest request) {
    try {
      return new ReadyResponse(request, message(units.of(request.getUnitID()), request));
    } catch (Refusal refusal) {
      return request.createExceptionResponse(refusal.code());
    } catch (RuntimeException e) {
      complaints.add(Complaints.Kind.ANSWER, "a request failed inside and was answered 04", e);
      return request.createExceptionResponse(Refusal.DEVICE_FAILURE);
    }
  }

  private byte[] message(Unit unit, ModbusRequest request) throws Refusal {
    if (request instanceof RefusedRequest refused) {
      throw new Refusal(refused.code());
    }
    return switch (request.getFunctionCode()) {
      case Modbus.READ_COILS -> readCoils(unit, (ReadCoilsRequest) request);
      case Modbus.READ_INPUT_DISCRETES ->
          readDiscreteInputs(unit, (ReadInputDiscretesRequest) request);
      case Modbus.READ_MULTIPLE_REGISTERS ->
          readHolding(unit, (ReadMultipleRegistersRequest) request);
      case Modbus.READ_INPUT_REGISTERS -> readInput(unit, (ReadInputRegistersRequest) request);
      case Modbus.WRITE_COIL -> writeCoil(unit, (WriteCoilRequest) request);
      case Modbus.WRITE_SINGLE_REGISTER ->
          writeRegister(unit, (WriteSingleRegisterRequest) request);
      case Modbus.WRITE_MULTIPLE_COILS -> writeCoils(unit, (WriteMultipleCoilsRequest) request);
      case Modbus.WRITE_MULTIPLE_REGISTERS ->
          writeRegisters(unit, (WriteMultipleRegistersRequest) request);
      case Modbus.MASK_WRITE_REGISTER -> maskWrite(unit, (MaskWriteRegisterRequest) request);
      case Modbus.READ_WRITE_MULTIPLE -> writeAndRead(unit, (ReadWriteMultipleRequest) request);
      default -> throw new Refusal(Refusal.ILLEGAL_FUNCTION);
    };
  }

  private byte[] readCoils(Unit unit, ReadCoilsRequest r) throws Refusal {
    return reads.bits(
        unit.snapshots(), unit.image().table(Table.COIL), r.getReference(), r.getBitCount());
  }

  private byte[] readDiscreteInputs(Unit unit, ReadInputDiscretesRequest r) throws Refusal {
    return reads.bits(
        unit.snapshots(),
        unit.image().table(Table.DISCRETE_INPUT),
        r.getReference(),
        r.getBitCount());
  }

  private byte[] readHolding(Unit unit, ReadMultipleRegistersRequest r) throws Refusal {
    return reads.registers(
        unit.snapshots(),
        unit.image().table(Table.HOLDING_REGISTER),
        r.getReference(),
        r.getWordCount());
  }

  private byte[] readInput(Unit unit, ReadInputRegistersRequest r) throws Refusal {
    return reads.registers(
        unit.snapshots(),
        unit.image().table(Table.INPUT_REGISTER),
        r.getReference(),
        r.getWordCount());
  }

  private byte[] writeCoil(Unit unit, WriteCoilRequest r) throws Refusal {
    handover.give(
        unit,
        WriteBatch.coils(unit.image().table(Table.COIL), r.getReference(), 1, i -> r.getCoil()));
    return words(r.getReference(), r.getCoil() ? 0xFF00 : 0);
  }

  private byte[] writeRegister(Unit unit, WriteSingleRegisterRequest r) throws Refusal {
    int value = r.getRegister().toUnsignedShort();
    handover.give(
        unit,
        WriteBatch.registers(
            unit.image().table(Table.HOLDING_REGISTER), r.getReference(), 1, i -> value));
    return words(r.getReference(), value);
  }

  private byte[] writeCoils(Unit unit, WriteMultipleCoilsRequest r) throws Refusal {
    handover.give(
        unit,
        WriteBatch.coils(
            unit.image().table(Table.COIL), r.getReference(), r.getBitCount(), r::getCoilStatus));
    return words(r.getReference(), r.getBitCount());
  }

  private byte[] writeRegisters(Unit unit, WriteMultipleRegistersRequest r) throws Refusal {
    handover.give(
        unit,
        WriteBatch.registers(
            unit.image().table(Table.HOLDING_REGISTER),
            r.getReference(),
            r.getWordCount(),
            r::getRegisterValue));
    return words(r.getReference(), r.getWordCount());
  }

  private byte[] maskWrite(Unit unit, MaskWriteRegisterRequest r) throws Refusal {
    handover.give(
        unit,
        WriteBatch.masked(
            unit.image().table(Table.HOLDING_REGISTER),
            r.getReference(),
            r.getAndMask(),
            r.getOrMask()));
    return words(r.getReference(), r.getAndMask(), r.getOrMask());
  }

  private byte[] writeAndRead(Unit unit, ReadWriteMultipleRequest r) throws Refusal {
    AddressTable table = unit.image().table(Table.HOLDING_REGISTER);
    int from = r.getReadReference();
    int quantity = r.getReadWordCount();
    // a bad address to read leaves the write undone
    Refusal.unless(table.covers(from, quantity), Refusal.ILLEGAL_ADDRESS);
    handover.give(
        unit,
        WriteBatch.registers(
            table, r.getWriteReference(), r.getWriteWordCount(), r::getReadRegisterValue));
    // the ring gives its newest image: the one that shows the write, or a later one
    return reads.registers(unit.snapshots(), table, from, quantity);
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
