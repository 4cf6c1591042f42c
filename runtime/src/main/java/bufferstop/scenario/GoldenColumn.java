package bufferstop.scenario;

import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.List;

/**
 * One value of a stored run beside the same of this one.
 *
 * @param tolerance how far off it may be, in the unit of {@link #real}
 * @param texts of a STRING, all that the stored run has; its bits are then numbers in this list
 * @param stored bits by row
 * @param present whether a row says anything
 */
record GoldenColumn(
    Symbol symbol, double tolerance, List<String> texts, long[] stored, boolean[] present) {
  private static final double MICROS = 1e6;

  /** Whether it may be nearly right: numbers and times. */
  static boolean isMeasured(Type type) {
    return type.isNumber() || type == Type.TIME;
  }

  /** The value in an image; of a STRING -1 when the stored run never has it. */
  long bits(long[] cells) {
    return symbol.type() == Type.STRING
        ? texts.indexOf(StringCells.unpack(cells, symbol.index()))
        : cells[symbol.index()];
  }

  /** How far a value is from a row of the stored run; infinite where there is only the same. */
  double deviation(int row, long bits) {
    if (!isMeasured(symbol.type())) {
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
    if (symbol.type() == Type.STRING) {
      return bits < 0 ? "another text" : StringCells.literal(texts.get((int) bits));
    }
    String unit = symbol.unit().isEmpty() ? "" : " " + symbol.unit();
    return Values.print(symbol.type(), symbol.enumeration(), bits) + unit;
  }
}
