package bufferstop.plant;

import bufferstop.model.Type;

/**
 * A wire between two ends. Without its supply nothing arrives, whatever is wrong with the wire.
 *
 * @param sourceCell cell of the value that enters it
 * @param sourceType how to read that cell
 * @param supply number of the supply it lives on, or -1
 * @param wire what the wire does to the value
 * @param sink takes what arrives
 */
record Link(int sourceCell, Type sourceType, int supply, WireRun wire, Sink sink) {

  /** The far end of a wire. */
  interface Sink {
    void arrive(double value, long[] cells);
  }

  void deliver(long[] cells, boolean[] supplyUp) {
    double arrives = wire.deliver(value(cells[sourceCell]));
    sink.arrive(supply < 0 || supplyUp[supply] ? arrives : 0, cells);
  }

  private double value(long bits) {
    return sourceType.isReal() ? Double.longBitsToDouble(bits) : bits;
  }
}
