package bufferstop.feeder;

import bufferstop.spi.Settings;

/** What opens its branch on current, for the chart and for grading. */
interface ProtectiveDevice {

  /** The current that a fault gives a device to see. */
  enum Current {
    /** Of a fault between the phases, in each of them. */
    PHASE("phase fault", "bolted three-phase fault"),
    /** Of a fault from one phase to the return conductor, the sum of the phases. */
    EARTH("earth fault", "bolted earth fault");

    final String text;
    final String bolted;

    Current(String text, String bolted) {
      this.text = text;
      this.bolted = bolted;
    }
  }

  /** As it is called in the settings, with its kind. */
  String label();

  /** Where its settings stand. */
  Settings at();

  /** The parameter that sets its time for a current. */
  String parameter(Current of);

  int branch();

  /**
   * Least current in A of its own branch that it ever operates on; infinite when it has nothing
   * that looks at that current.
   */
  double leastAmperes(Current of);

  /**
   * Time from the beginning of a constant current until that current is broken, at the latest;
   * infinite when never.
   */
  double clearingSeconds(Current of, double amperes);

  /** Likewise the time at which it can begin to operate, so that it is too late to save it. */
  double operatingSeconds(Current of, double amperes);
}
