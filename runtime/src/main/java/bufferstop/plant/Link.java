package bufferstop.plant;

import bufferstop.model.Type;

/**
 * A wire between two ends.
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
    boolean fed = supply < 0 || supplyUp[supply];
    sink.arrive(wire.deliver(fed ? value(cells[sourceCell]) : 0), cells);
  }

  private double value(long bits) {
    return sourceType.isReal() ? Double.longBitsToDouble(bits) : bits;
  }
}
