package bufferstop.feeder;

import java.util.Locale;

/**
 * Inverse-time curves: t(M) = T (k / (M^alpha - 1) + c) for M = I / Is above 1. The IEC constants
 * are those of IEC 60255-151:2009, Annex A [seen second-hand], the long-time curve is British
 * practice [seen second-hand], the IEEE constants are those of IEEE C37.112 [from memory, not
 * re-read]; so are the reset constants of the disc.
 */
enum Curve {
  IEC_STANDARD_INVERSE(0.14, 0, 0.02, 0),
  IEC_VERY_INVERSE(13.5, 0, 1, 0),
  IEC_EXTREMELY_INVERSE(80, 0, 2, 0),
  LONG_TIME_INVERSE(120, 0, 1, 0),
  IEEE_MODERATELY_INVERSE(0.0515, 0.1140, 0.02, 4.85),
  IEEE_VERY_INVERSE(19.61, 0.491, 2, 21.6),
  IEEE_EXTREMELY_INVERSE(28.2, 0.1217, 2, 29.1);

  private final double k;
  private final double c;
  private final double alpha;

  /** Full reset of a disc from rest at M = 0 and T = 1, s; 0 where the standard gives none. */
  final double resetSeconds;

  Curve(double k, double c, double alpha, double resetSeconds) {
    this.k = k;
    this.c = c;
    this.alpha = alpha;
    this.resetSeconds = resetSeconds;
  }

  /** The curve of a word of the settings. */
  static Curve of(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }

  /**
   * Operating time at a constant current.
   *
   * @param multiple current over setting
   * @param multiplier time multiplier (IEC) or time dial (IEEE), above 0
   * @return seconds; {@link Double#POSITIVE_INFINITY} at or below the setting
   */
  double seconds(double multiple, double multiplier) {
    if (!(multiple > 1)) {
      return Double.POSITIVE_INFINITY;
    }
    return multiplier * (k / (power(multiple) - 1) + c);
  }

  /** By logarithms, since StrictMath.pow allocates. */
  private double power(double multiple) {
    if (alpha == 1) {
      return multiple;
    }
    return alpha == 2 ? multiple * multiple : StrictMath.exp(alpha * StrictMath.log(multiple));
  }
}
