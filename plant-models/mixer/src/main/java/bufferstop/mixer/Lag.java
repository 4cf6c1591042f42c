package bufferstop.mixer;

/** Lags of first order, exact for what holds its value over a step. */
final class Lag {
  private Lag() {}

  /**
   * What part of the way to its goal a lag goes.
   *
   * @param lag time constant in s; 0 for at once
   */
  static double share(double seconds, double lag) {
    return lag <= 0 ? 1 : -StrictMath.expm1(-seconds / lag);
  }
}
