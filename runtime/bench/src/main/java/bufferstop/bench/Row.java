package bufferstop.bench;

/**
 * One figure and the baseline measured in the same run, both medians.
 *
 * @param name what was measured
 * @param unit of value and baseline
 * @param baselineName what it is compared with; empty when it stands alone
 * @param baseline 0 when it stands alone
 */
public record Row(String name, double value, String unit, String baselineName, double baseline) {

  /** A figure that stands alone. */
  public static Row alone(String name, double value, String unit) {
    return new Row(name, value, unit, "", 0);
  }

  boolean isCompared() {
    return !baselineName.isEmpty();
  }

  /** Value over baseline. */
  double ratio() {
    return value / baseline;
  }
}
