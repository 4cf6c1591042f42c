package bufferstop.report;

import bufferstop.model.Fault;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Recording.Event;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Force;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Unforce;
import bufferstop.model.Scenario.Write;
import bufferstop.model.SourceText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a client wrote to the fault panel as the deeds it came to, so that a scenario made of it
 * fits projects without a panel. The panel acts after the scan that takes the write, which is
 * before the next.
 */
final class PanelDeeds {
  private static final Position HERE = Position.ofFile("");
  private static final String FAULTS = "faults.";
  private static final String FORCES = "forces.";
  private static final String VALUE = ".value";

  private final Map<String, String> values = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);
  private final List<Event> events = new ArrayList<>();

  private PanelDeeds(Map<String, String> initial) {
    values.putAll(initial);
  }

  /**
   * The events with writes to the panel replaced.
   *
   * @param initial values of the panel's points before the run, by name
   */
  static List<Event> of(List<Event> events, Map<String, String> initial) {
    PanelDeeds deeds = new PanelDeeds(initial);
    events.forEach(deeds::add);
    deeds.events.sort(Comparator.comparingLong(Event::period)); // stable
    return deeds.events;
  }

  private void add(Event event) {
    if (!(event.deed() instanceof Write write)) {
      events.add(event);
      return;
    }
    List<Assignment> others = new ArrayList<>();
    for (Assignment assignment : write.values()) {
      String name = assignment.point().text();
      if (isPanel(name) && name.endsWith(VALUE)) {
        values.put(name, assignment.value().value());
      }
      if (!isPanel(name)) {
        others.add(assignment);
      }
    }
    if (!others.isEmpty()) {
      events.add(new Event(event.period(), new Write(List.copyOf(others), false)));
    }
    for (Assignment assignment : write.values()) {
      String name = assignment.point().text();
      if (isPanel(name) && !name.endsWith(VALUE)) {
        boolean on = assignment.value().value().equals("TRUE");
        Deed deed = name.startsWith(FAULTS) ? fault(name, on) : force(name, on);
        events.add(new Event(event.period() + 1, deed));
      }
    }
  }

  private static boolean isPanel(String name) {
    return name.startsWith(FAULTS) || name.startsWith(FORCES);
  }

  /** Of {@code faults.wire.NAME.MODE}; the name itself may hold dots. */
  private Deed fault(String point, boolean on) {
    int place = point.indexOf('.', FAULTS.length());
    int mode = point.lastIndexOf('.');
    String word = point.substring(FAULTS.length(), place).toUpperCase(Locale.ROOT);
    Fault.Target target =
        new Fault.Target(Fault.Place.valueOf(word), name(point.substring(place + 1, mode)));
    String value = values.get(point + VALUE);
    SourceText text = value == null ? null : SourceText.of(value);
    return on
        ? new Inject(new Fault(target, name(point.substring(mode + 1)), text, 0), 0)
        : new Clear(target);
  }

  private Deed force(String point, boolean on) {
    Name target = name(point.substring(FORCES.length()));
    String value = values.get(point + VALUE);
    return on
        ? new Force(List.of(new Assignment(target, SourceText.of(value))))
        : new Unforce(target);
  }

  private static Name name(String text) {
    return new Name(text, HERE);
  }
}
