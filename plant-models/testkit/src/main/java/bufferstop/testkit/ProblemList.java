package bufferstop.testkit;

import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;

/** Collects the problems a plug-in reports. */
public final class ProblemList implements Problems {

  /** One problem, as it was reported. */
  public record Problem(String parameter, String message, String expected, String help) {}

  private final List<Problem> all = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  /** An empty list. */
  public ProblemList() {}

  @Override
  public void error(Settings at, String parameter, String message, String expected, String help) {
    all.add(new Problem(parameter, message, expected, help));
  }

  @Override
  public void warning(Settings at, String parameter, String message, String expected, String help) {
    warnings.add(message);
  }

  /** The errors that were reported, in order. */
  public List<Problem> all() {
    return List.copyOf(all);
  }

  /** The messages of the warnings, in order. */
  public List<String> warnings() {
    return List.copyOf(warnings);
  }
}
