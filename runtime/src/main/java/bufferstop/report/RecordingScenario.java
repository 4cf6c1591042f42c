package bufferstop.report;

import bufferstop.model.Recording;
import bufferstop.model.Recording.Event;
import bufferstop.scenario.DeedText;
import java.util.List;
import java.util.Map;

/**
 * A piece of a recording as a scenario file: everything done up to its end, from the beginning,
 * since the plants' state at the beginning of the piece can only be reached that way; what is
 * expected is judged within the piece.
 */
public final class RecordingScenario {
  private RecordingScenario() {}

  /**
   * The text of the file.
   *
   * @param fromMicros beginning of the piece
   * @param toMicros its end, where the scenario ends
   * @param initial values of the fault panel's points before the run, by name
   * @param expectations each as in a scenario: {@code never: hazards.x}
   */
  public static String text(
      Recording recording,
      String name,
      long periodMicros,
      long fromMicros,
      long toMicros,
      Map<String, String> initial,
      List<String> expectations) {
    StringBuilder text = new StringBuilder();
    text.append("# From a recording of ").append(recording.project().replace('\n', ' '));
    text.append(", made by version ").append(recording.version()).append(".\n");
    if (!recording.retained().isEmpty()) {
      text.append("# The run began with retained values; a scenario begins cold.\n");
    }
    text.append("scenario: \"").append(name.replace("\\", "\\\\").replace("\"", "\\\""));
    text.append("\"\nfor: ").append(DeedText.time(toMicros)).append("\nseed: ");
    text.append(recording.seed()).append('\n');
    String head = "do:\n";
    for (Event event : PanelDeeds.of(recording.events(), initial)) {
      long at = event.period() * periodMicros;
      if (at <= toMicros) {
        text.append(head).append("  - {at: ").append(DeedText.time(at)).append(", ");
        text.append(DeedText.of(event.deed())).append("}\n");
        head = "";
      }
    }
    text.append("expect:\n");
    for (String expectation : expectations) {
      boolean whole = fromMicros == 0;
      text.append("  - {").append(expectation);
      text.append(whole ? "" : ", from: " + DeedText.time(fromMicros)).append("}\n");
    }
    return text.toString();
  }
}
