package bufferstop.rig;

import bufferstop.model.Controller;
import bufferstop.model.Controller.Alarm;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/**
 * The cause-and-effect matrix as the declarations give it: a row for each cause of an interlock, a
 * column for each output, alarm and sequence that one acts on. What passes through blocks, the
 * logic or the conditions of other interlocks is not followed. Source of the form: rows are causes,
 * columns effects, votes, delays and resets are attributes; marks are not standard and are declared
 * [common practice, no source].
 *
 * @param effects names of the columns: outputs, {@code alarms.NAME}, sequences
 */
public record CauseAndEffect(List<String> effects, List<Row> rows) {
  /** What the marks mean. */
  public static final String LEGEND =
      "X trip, I interlock, P permissive, A abort, H hold; on a sequence X, I and P mean that a"
          + " transition names it";

  /**
   * A cause.
   *
   * @param kind permissive, interlock or trip
   * @param vote {@code 2oo3}, or empty
   * @param delay a TIME, or empty
   * @param bypass its key and limit, or empty
   * @param reset of a trip, or empty
   * @param marks one for each effect, empty for none, several with a blank between
   */
  public record Row(
      String interlock,
      String kind,
      String cause,
      String text,
      String vote,
      String delay,
      String bypass,
      String reset,
      List<String> marks) {}

  /** The matrix of a project. */
  public static CauseAndEffect of(Rig rig) {
    return new Maker(rig).matrix();
  }

  private static final class Maker {
    private final Rig rig;
    private final Controller controller;
    private final List<String> effects = new ArrayList<>();

    Maker(Rig rig) {
      this.rig = rig;
      controller = rig.project().controller();
    }

    CauseAndEffect matrix() {
      List<Row> rows = new ArrayList<>();
      for (Interlock interlock : controller.interlocks()) {
        for (Cause cause : interlock.causes()) {
          rows.add(row(interlock, cause, marks(interlock, cause)));
        }
      }
      List<String> used = new ArrayList<>();
      for (int i = 0; i < effects.size(); i++) {
        int column = i;
        if (rows.stream().anyMatch(row -> !row.marks.get(column).isEmpty())) {
          used.add(effects.get(i));
        }
      }
      return new CauseAndEffect(used, rows.stream().map(row -> reduced(row, used)).toList());
    }

    /** A row without the columns in which there is no mark at all. */
    private Row reduced(Row row, List<String> used) {
      List<String> marks = new ArrayList<>();
      for (int i = 0; i < effects.size(); i++) {
        if (used.contains(effects.get(i))) {
          marks.add(row.marks.get(i));
        }
      }
      return row(row, marks);
    }

    private static Row row(Row row, List<String> marks) {
      return new Row(
          row.interlock,
          row.kind,
          row.cause,
          row.text,
          row.vote,
          row.delay,
          row.bypass,
          row.reset,
          List.copyOf(marks));
    }

    private static Row row(Interlock interlock, Cause cause, List<String> marks) {
      String vote =
          cause.vote() == null ? "" : cause.vote().needed() + "oo" + cause.vote().channels().size();
      String bypass =
          cause.bypass() == null
              ? ""
              : cause.bypass().when().value()
                  + ", at most "
                  + Values.time(cause.bypass().atMostMicros());
      return new Row(
          interlock.name(),
          interlock.kind().name().toLowerCase(Locale.ROOT),
          cause.name(),
          cause.text().isEmpty() ? interlock.text() : cause.text(),
          vote,
          cause.delayMicros() == 0 ? "" : Values.time(cause.delayMicros()),
          bypass,
          interlock.reset() == null ? "" : interlock.reset().value(),
          marks);
    }

    /** The marks of every possible effect, whose names are noted on the way. */
    private List<String> marks(Interlock interlock, Cause cause) {
      effects.clear();
      List<String> marks = new ArrayList<>();
      String letter = letter(interlock.kind());
      controller.points().stream()
          .filter(point -> point.kind() == Symbol.Kind.OUTPUT)
          .forEach(
              point -> {
                effects.add(point.name());
                marks.add(names(interlock.makesSafe(), point.name()) ? letter : "");
              });
      for (Alarm alarm : controller.alarms()) {
        effects.add("alarms." + alarm.name());
        boolean acts = alarm.when() != null && asks(alarm.when(), interlock, cause);
        marks.add(acts ? letter : "");
      }
      for (Sequence sequence : controller.sequences()) {
        effects.add(sequence.name());
        marks.add(onSequence(sequence, interlock, cause, letter));
      }
      return marks;
    }

    private String onSequence(Sequence sequence, Interlock interlock, Cause cause, String letter) {
      List<String> marks = new ArrayList<>();
      if (sequence.transitions().stream()
          .map(Transition::when)
          .anyMatch(when -> asks(when, interlock, cause))) {
        marks.add(letter);
      }
      if (sequence.abort() != null && asks(sequence.abort().when(), interlock, cause)) {
        marks.add("A");
      }
      if (sequence.hold() != null && asks(sequence.hold().when(), interlock, cause)) {
        marks.add("H");
      }
      return String.join(" ", marks);
    }

    private static boolean names(List<Name> names, String name) {
      return names.stream().anyMatch(n -> n.text().equalsIgnoreCase(name));
    }

    private static String letter(InterlockKind kind) {
      return switch (kind) {
        case TRIP -> "X";
        case INTERLOCK -> "I";
        case PERMISSIVE -> "P";
      };
    }

    /** Whether a condition names the state of an interlock, or this cause of it. */
    private boolean asks(SourceText condition, Interlock interlock, Cause cause) {
      Set<String> read = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
      Expression expression =
          ExpressionReader.read(condition, rig.layout().controller(), Type.BOOL, new Diagnostics());
      expression.reads().forEach(symbol -> read.add(symbol.name()));
      String name = interlock.name();
      return read.contains(name + ".ok")
          || read.contains(name + ".tripped")
          || read.contains(name + ".first." + cause.name());
    }
  }
}
