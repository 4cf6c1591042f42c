package bufferstop.feeder;

import bufferstop.spi.Settings;

/** What opens its branch on current, for the chart and for grading. */
interface ProtectiveDevice {

  /** As it is called in the settings, with its kind. */
  String label();

  /** Where its settings stand. */
  Settings at();

  /** The parameter that sets its time. */
  String parameter();

  int branch();

  /** Least current in A of its own branch that it ever operates on. */
  double leastAmperes();

  /**
   * Time from the beginning of a constant current of all its phases until that current is broken,
   * at the latest; infinite when never.
   */
  double clearingSeconds(double amperes);

  /** Likewise the time at which it can begin to operate, so that it is too late to save it. */
  double operatingSeconds(double amperes);
}
