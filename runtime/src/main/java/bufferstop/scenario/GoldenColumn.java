package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;

/**
 * One value of a stored run beside the same of this one.
 *
 * @param tolerance how far off it may be, in the unit of {@link #real}
 * @param stored bits by row
 * @param present whether a row says anything
 */
record GoldenColumn(Symbol symbol, double tolerance, long[] stored, boolean[] present) {
  private static final double MICROS = 1e6;

  /** How far a value is from a row of the stored run; infinite for a BOOL that differs. */
  double deviation(int row, long bits) {
    if (symbol.type() == Type.BOOL) {
      return stored[row] == bits ? 0 : Double.POSITIVE_INFINITY;
    }
    return Math.abs(real(bits) - real(stored[row]));
  }

  /** As a number: TIME in seconds, whole numbers as they are. */
  private double real(long bits) {
    return switch (symbol.type()) {
      case REAL, LREAL -> Double.longBitsToDouble(bits);
      case TIME -> bits / MICROS;
      case ULINT -> bits >= 0 ? bits : (bits >>> 1) * 2.0 + (bits & 1);
      default -> bits;
    };
  }

  String unit() {
    return symbol.type() == Type.TIME ? "s" : symbol.unit();
  }

  String shown(long bits) {
    String unit = symbol.unit().isEmpty() ? "" : " " + symbol.unit();
    return Values.print(symbol.type(), bits) + unit;
  }
}
