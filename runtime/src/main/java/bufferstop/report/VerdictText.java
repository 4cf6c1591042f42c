package bufferstop.report;

import bufferstop.model.Values;
import bufferstop.scenario.BypassCount;
import bufferstop.scenario.ExpectationResult;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Target;
import bufferstop.scenario.Verdict;
import java.util.List;
import java.util.Locale;

/** Renders verdicts for people. */
public final class VerdictText {
  private static final double MICROS = 1e6;
  private static final double NANOS = 1e9;

  private VerdictText() {}

  /** One line: verdict, name, smallest margin in each unit, how much faster than real time. */
  public static String line(ScenarioResult result) {
    List<String> margins =
        result.smallestMargins().stream()
            .map(e -> Values.number(round(e.margin())) + unit(e))
            .toList();
    String margin =
        margins.isEmpty() ? "no margin" : "smallest margin " + String.join(", ", margins);
    double seconds = result.virtualMicros() / MICROS;
    double wall = result.wallNanos() / NANOS;
    return String.format(
        Locale.ROOT,
        "%-12s  %s  (%s; %.0f s in %.2f s, %.0f x real time)",
        result.verdict().word(),
        result.scenario().name(),
        margin,
        seconds,
        wall,
        seconds / wall);
  }

  private static double round(double margin) {
    return StrictMath.rint(margin * 10_000) / 10_000;
  }

  private static String unit(ExpectationResult result) {
    return result.unit().isEmpty() ? "" : " " + result.unit();
  }

  /** What did not pass, why, and the values around that moment, then what was bypassed. */
  public static String details(ScenarioResult result) {
    StringBuilder out = new StringBuilder();
    for (ExpectationResult expectation : result.expectations()) {
      if (expectation.verdict() != Verdict.PASSED) {
        details(expectation, out);
      }
    }
    for (String note : result.notes()) {
      out.append("  inconclusive: ").append(note).append('\n');
    }
    out.append(bypasses(result.bypasses()));
    out.append(AlarmText.faults(result.alarms()));
    return out.toString();
  }

  /** A line for each bypass that was on; nothing when none was. */
  public static String bypasses(List<BypassCount> bypasses) {
    StringBuilder out = new StringBuilder();
    for (BypassCount bypass : bypasses) {
      if (bypass.times() > 0) {
        out.append("  bypassed: %s.%s, ".formatted(bypass.interlock(), bypass.cause()));
        out.append(times(bypass.times())).append("; would have acted ");
        out.append(times(bypass.wouldAct())).append('\n');
      }
    }
    return out.toString();
  }

  private static String times(long count) {
    return count == 1 ? "once" : count + " times";
  }

  private static void details(ExpectationResult expectation, StringBuilder out) {
    out.append("  ").append(expectation.verdict().word()).append(": ");
    out.append(expectation.text()).append('\n');
    out.append("    ").append(expectation.reason());
    if (expectation.margin() != null) {
      out.append("; margin ").append(Values.number(round(expectation.margin())));
      out.append(unit(expectation));
    }
    out.append('\n');
    for (ExpectationResult.Margin margin : expectation.others()) {
      out.append("    margin ").append(Values.number(round(margin.value())));
      out.append(margin.unit().isEmpty() ? "" : " " + margin.unit()).append(" at ");
      out.append(Values.time(margin.atMicros())).append('\n');
    }
    for (String value : expectation.values()) {
      out.append("    ").append(value).append('\n');
    }
    if (expectation.verdict() == Verdict.FAILED) {
      happenings(expectation.before(), out);
    }
  }

  private static void happenings(List<Target.Happening> happenings, StringBuilder out) {
    out.append(happenings.isEmpty() ? "" : "    what happened before:\n");
    for (Target.Happening happening : happenings) {
      out.append("      ").append(Values.time(happening.atMicros())).append("  ");
      out.append(happening.text()).append('\n');
    }
  }
}
