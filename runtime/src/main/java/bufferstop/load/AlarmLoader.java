package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.Limit;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;

/** Reads {@code alarms}. */
final class AlarmLoader {
  private static final List<String> KINDS = List.of("when", "high", "low");
  private static final long STANDARD_SHELF = 3_600_000_000L;

  private final Sections sections;
  private final Diagnostics problems;

  AlarmLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /**
   * The alarms of a controller.
   *
   * @param acknowledged whether the controller has a way to acknowledge all
   */
  List<Controller.Alarm> read(TableReader controller, boolean acknowledged) {
    List<Controller.Alarm> alarms = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "alarms", "alarms by name")) {
      boolean named = Identifiers.check(entry.key(), problems) && isFree(entry.key());
      TableReader reader =
          TableReader.knowing(
              sections.definitions(), TableReader.open(entry, ControllerForms.ALARM, problems));
      Controller.Alarm alarm = reader == null ? null : alarm(entry.key(), reader, acknowledged);
      if (alarm != null && named) {
        alarms.add(alarm);
      } else {
        problems.doubt("alarms." + entry.key().text());
      }
    }
    return List.copyOf(alarms);
  }

  /**
   * The standing alarm of each bypass, made by itself. No alarm of a user can have its name, which
   * is dotted.
   */
  static List<Controller.Alarm> ofBypasses(List<Interlock> interlocks, boolean acknowledged) {
    List<Controller.Alarm> alarms = new ArrayList<>();
    for (Interlock interlock : interlocks) {
      for (Cause cause : interlock.causes()) {
        if (cause.bypass() != null) {
          alarms.add(ofBypass(interlock.name() + "." + cause.name(), cause, acknowledged));
        }
      }
    }
    return alarms;
  }

  private static Controller.Alarm ofBypass(String name, Cause cause, boolean acknowledged) {
    return new Controller.Alarm(
        name + ".bypassed",
        SourceText.of(name + ".bypassed"),
        null,
        Controller.Priority.MEDIUM,
        0,
        0,
        acknowledged,
        false,
        0,
        STANDARD_SHELF,
        null,
        null,
        false,
        "bypass of " + name,
        cause.position());
  }

  /** Names under {@code alarms} that are not an alarm's. */
  private boolean isFree(Name name) {
    boolean taken =
        List.of("active", "unacknowledged", "silent", "groups").stream()
            .anyMatch(word -> word.equalsIgnoreCase(name.text()));
    if (taken) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_NAME, name.position(), "no alarm can be called `" + name.text() + "`")
              .help("`alarms." + name.text() + "` tells of all alarms; choose another name"));
    }
    return !taken;
  }

  private Controller.Alarm alarm(Name name, TableReader reader, boolean acknowledged) {
    List<String> given = reader.given(KINDS);
    SourceText when = given.equals(List.of("when")) ? reader.requiredText("when") : null;
    boolean limited = given.size() == 1 && !given.get(0).equals("when");
    Limit limit = limited ? limit(reader, given.get(0)) : null;
    Controller.Alarm alarm =
        new Controller.Alarm(
            name.text(),
            when,
            limit,
            reader.choice("priority", Controller.Priority.class, Controller.Priority.MEDIUM),
            reader.time("on_delay", 0, 0),
            reader.time("off_delay", 0, 0),
            reader.bool("acknowledge", acknowledged),
            reader.bool("latching", false),
            reader.time("re_alarm", 0, 0),
            reader.time("shelve_for", STANDARD_SHELF, 0),
            reader.name("group"),
            reader.text("suppressed"),
            reader.bool("retain", false),
            reader.words("text"),
            name.position());
    boolean finished = reader.finish();
    if (given.size() != 1 && finished) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  name.position(),
                  "`%s` has %s of when, high and low"
                      .formatted(name.text(), given.isEmpty() ? "none" : "several"))
              .expected("a condition under `when`, or a limit under `high` or `low`"));
    }
    if (alarm.group() != null) {
      Identifiers.check(alarm.group(), problems);
    }
    return when == null && limit == null ? null : alarm;
  }

  private Limit limit(TableReader alarm, String kind) {
    TableReader reader =
        TableReader.knowing(
            sections.definitions(),
            TableReader.open(alarm.entry(kind), ControllerForms.LIMIT, problems));
    if (reader == null) {
      return null;
    }
    SourceText value = reader.requiredText("value");
    SourceText at = reader.requiredText("limit");
    SourceText deadband = reader.text("deadband");
    boolean finished = reader.finish();
    return finished && value != null && at != null
        ? new Limit(kind.equals("high"), value, at, deadband)
        : null;
  }
}
