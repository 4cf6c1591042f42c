package bufferstop.scenario;

import bufferstop.model.Fault;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Press;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Turn;
import bufferstop.model.Scenario.Write;
import bufferstop.model.Values;
import java.util.Locale;

/** A deed as a scenario file writes it in braces, so that what is told can be done again. */
public final class DeedText {
  private DeedText() {}

  /** Keys and values without the braces around them: {@code press: panel.start}. */
  public static String of(Deed deed) {
    if (deed instanceof Write write) {
      return "write: " + assignments(write.values()) + (write.refused() ? ", refused: TRUE" : "");
    } else if (deed instanceof Press press) {
      return "press: " + press.element().text() + lasting(press.forMicros());
    } else if (deed instanceof Release release) {
      return "release: " + release.element().text();
    } else if (deed instanceof Turn turn) {
      return "turn: " + turn.element().text() + ", to: " + turn.to().text();
    } else if (deed instanceof Clear clear) {
      return "clear: {" + target(clear.on()) + "}";
    }
    Inject inject = (Inject) deed;
    return "fault: {" + fault(inject.fault()) + "}" + lasting(inject.forMicros());
  }

  private static String assignments(Iterable<Assignment> values) {
    StringBuilder text = new StringBuilder("{");
    for (Assignment value : values) {
      text.append(text.length() > 1 ? ", " : "");
      text.append(value.point().text()).append(": ").append(value.value().value());
    }
    return text.append("}").toString();
  }

  private static String fault(Fault fault) {
    String value = fault.value() == null ? "" : ", value: " + fault.value().value();
    boolean chatter = fault.mode().text().equalsIgnoreCase("chatter");
    String time =
        fault.micros() == 0 ? "" : (chatter ? ", every: " : ", by: ") + Values.time(fault.micros());
    return target(fault.on()) + ", mode: " + fault.mode().text() + value + time;
  }

  private static String target(Fault.Target on) {
    return on.place().name().toLowerCase(Locale.ROOT) + ": " + on.name().text();
  }

  private static String lasting(long micros) {
    return micros == 0 ? "" : ", for: " + Values.time(micros);
  }
}
