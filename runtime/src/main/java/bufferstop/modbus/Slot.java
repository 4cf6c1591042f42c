package bufferstop.modbus;

import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Point;
import bufferstop.model.Type;

/**
 * One entry of a map, resolved.
 *
 * @param size addresses it takes
 * @param cell where its value lives
 * @param writable the point a client may write here, or null
 */
record Slot(int address, int size, int cell, Type type, WordOrder order, Point writable) {

  /** The register at an absolute address within this slot. */
  int word(long bits, int at) {
    return (int) (RegisterCode.raw(bits, type) >>> shift(at)) & 0xFFFF;
  }

  /** Distance of the lowest bit of the register at an absolute address. */
  int shift(int at) {
    return RegisterCode.shift(at - address, size, order);
  }
}
