package bufferstop.modbus;

import bufferstop.image.WriteRequest;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Serving.Permission;
import java.util.concurrent.TimeUnit;

/**
 * From a request to its answer, whatever happens. One thread uses one of these. Checks come in the
 * order of each function's own state diagram: the unit, the structure, addresses, whether this
 * client may, then values against their points.
 */
final class Dispatch {
  private final Units units;
  private final PollCycles cycles = new PollCycles();
  private final Reads reads = new Reads();
  private final long waitNanos;
  private final Complaints complaints;

  /**
   * A dispatch.
   *
   * @param writeMillis how long a write may wait for a scan to take it
   */
  Dispatch(Units units, long writeMillis, Complaints complaints) {
    this.units = units;
    this.waitNanos = TimeUnit.MILLISECONDS.toNanos(writeMillis);
    this.complaints = complaints;
  }

  /**
   * Answers the request of an exchange; or, when it is a write, leaves the exchange waiting until a
   * published scan shows it: then {@link #look} is to be called again and again.
   */
  void begin(Exchange x, Permission client) {
    cycles.count(x.unitId(), x.function(), x.pduLength() > 2 ? x.word(1) : 0, System.nanoTime());
    try {
      serve(units.of(x.unitId()), x, client);
    } catch (Refusal refusal) {
      x.refused(refusal.code());
    } catch (RuntimeException e) {
      failed(x, e);
    }
  }

  /** How regularly it is asked. */
  PollCycles cycles() {
    return cycles;
  }

  /** Looks whether a waiting exchange can be answered now. */
  void look(Exchange x) {
    try {
      if (x.isShown()) {
        finish(x);
      } else if (x.waitedNanos(System.nanoTime()) >= waitNanos && x.withdraw()) {
        // a scan that took the write in this very moment wins: its publication is awaited
        x.refused(Refusal.DEVICE_FAILURE);
      }
    } catch (Refusal refusal) {
      x.refused(refusal.code());
    } catch (RuntimeException e) {
      failed(x, e);
    }
  }

  private void failed(Exchange x, RuntimeException e) {
    complaints.add(Complaints.Kind.ANSWER, "a request failed inside and was answered 04", e);
    x.refused(Refusal.DEVICE_FAILURE);
  }

  private void serve(Unit unit, Exchange x, Permission client) throws Refusal {
    int fault =
        x.pduLength() > Exchange.MOST_PDU
            ? Refusal.ILLEGAL_VALUE
            : PduCheck.fault(x.request, Exchange.FUNCTION_AT, x.pduLength());
    Refusal.unless(fault == PduCheck.GOOD, fault);
    switch (x.function()) {
      case FunctionCode.READ_COILS -> readBits(unit, Table.COIL, x, client);
      case FunctionCode.READ_DISCRETE_INPUTS -> readBits(unit, Table.DISCRETE_INPUT, x, client);
      case FunctionCode.READ_HOLDING_REGISTERS ->
          readRegisters(unit, Table.HOLDING_REGISTER, x, client);
      case FunctionCode.READ_INPUT_REGISTERS ->
          readRegisters(unit, Table.INPUT_REGISTER, x, client);
      case FunctionCode.WRITE_SINGLE_COIL ->
          offer(unit, x, WriteBatch.coil(table(unit, Table.COIL, x, 1, client), x));
      case FunctionCode.WRITE_MULTIPLE_COILS ->
          offer(unit, x, WriteBatch.coils(table(unit, Table.COIL, x, x.word(3), client), x));
      case FunctionCode.WRITE_SINGLE_REGISTER ->
          offer(unit, x, WriteBatch.registers(holding(unit, x, 1, client), x, 1, 1, 3));
      case FunctionCode.WRITE_MULTIPLE_REGISTERS ->
          offer(
              unit,
              x,
              WriteBatch.registers(holding(unit, x, x.word(3), client), x, 1, x.word(3), 6));
      case FunctionCode.MASK_WRITE_REGISTER -> maskWrite(unit, x, client);
      case FunctionCode.READ_WRITE_MULTIPLE_REGISTERS -> writeAndRead(unit, x, client);
      case FunctionCode.ENCAPSULATED_INTERFACE -> identify(unit, x, client);
      default -> throw new Refusal(Refusal.ILLEGAL_FUNCTION);
    }
  }

  private void readBits(Unit unit, Table which, Exchange x, Permission client) throws Refusal {
    AddressTable table = unit.image().table(which);
    table.checkRead(x.word(1), x.word(3), client.read());
    x.answer[Exchange.FUNCTION_AT] = (byte) x.function();
    x.answered(1 + reads.bits(unit.snapshots(), table, x.word(1), x.word(3), x.answer));
  }

  private void readRegisters(Unit unit, Table which, Exchange x, Permission client) throws Refusal {
    AddressTable table = unit.image().table(which);
    table.checkRead(x.word(1), x.word(3), client.read());
    read(unit, table, x);
  }

  private void read(Unit unit, AddressTable table, Exchange x) throws Refusal {
    x.answer[Exchange.FUNCTION_AT] = (byte) x.function();
    x.answered(1 + reads.registers(unit.snapshots(), table, x.word(1), x.word(3), x.answer));
  }

  /** The table a write goes to, once the client is known to be allowed there. */
  private static AddressTable table(
      Unit unit, Table which, Exchange x, int quantity, Permission client) throws Refusal {
    AddressTable table = unit.image().table(which);
    table.checkWrite(x.word(1), quantity, client.write());
    return table;
  }

  private static AddressTable holding(Unit unit, Exchange x, int quantity, Permission client)
      throws Refusal {
    return table(unit, Table.HOLDING_REGISTER, x, quantity, client);
  }

  private static void maskWrite(Unit unit, Exchange x, Permission client) throws Refusal {
    AddressTable table = unit.image().table(Table.HOLDING_REGISTER);
    table.checkMask(x.word(1), x.word(3), client.write());
    offer(unit, x, WriteBatch.masked(table, x));
  }

  private static void writeAndRead(Unit unit, Exchange x, Permission client) throws Refusal {
    AddressTable table = unit.image().table(Table.HOLDING_REGISTER);
    // a bad address to read leaves the write undone
    table.checkRead(x.word(1), x.word(3), client.read());
    table.checkWrite(x.word(5), x.word(7), client.write());
    offer(unit, x, WriteBatch.registers(table, x, 5, x.word(7), 10));
  }

  private static void identify(Unit unit, Exchange x, Permission client) throws Refusal {
    Refusal.unless(!client.read().isEmpty(), Refusal.ILLEGAL_FUNCTION);
    x.answered(unit.identification().answer(x.request, x.answer));
  }

  private static void offer(Unit unit, Exchange x, WriteRequest request) throws Refusal {
    Refusal.unless(unit.writes().offer(request), Refusal.DEVICE_BUSY);
    x.await(unit, request, System.nanoTime());
  }

  private void finish(Exchange x) throws Refusal {
    switch (x.function()) {
      case FunctionCode.READ_WRITE_MULTIPLE_REGISTERS ->
          // the ring gives its newest image: the one that shows the write, or a later one
          read(x.unit(), x.unit().image().table(Table.HOLDING_REGISTER), x);
      case FunctionCode.MASK_WRITE_REGISTER -> x.echoed(7);
      default -> x.echoed(5); // function, address, and value or quantity
    }
  }
}
