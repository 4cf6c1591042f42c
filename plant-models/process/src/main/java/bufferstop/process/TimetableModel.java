package bufferstop.process;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** The plant model {@code timetable}: quantities that follow the time of day, week after week. */
public final class TimetableModel implements PlantModel {
  static final List<String> WEEK = List.of("mon", "tue", "wed", "thu", "fri", "sat", "sun");
  private static final String CLOCK = "([01]\\d|2[0-3]):[0-5]\\d";

  private static final List<Parameter> ROW =
      List.of(
          Parameter.text("at", "Time of day it holds from, 00:00 to 23:59"),
          Parameter.choice("days", List.of("all", "workdays", "weekend"), "Days it belongs to")
              .orElse("all"),
          Parameter.text("values", "A number for each column, with blanks between"));

  private static final List<Parameter> SCHEMA =
      List.of(
          Parameter.choice("weekday", WEEK, "Day of the week at the start").orElse("mon"),
          Parameter.text("time", "Time of day at the start").orElse("00:00"),
          Parameter.text("columns", "Names of the quantities, with blanks between"),
          Parameter.named(
              "rows", ROW, "By name: what holds from a time of day until the next row"));

  /** Called by {@link java.util.ServiceLoader}. */
  public TimetableModel() {}

  @Override
  public String name() {
    return "timetable";
  }

  @Override
  public List<Parameter> schema() {
    return SCHEMA;
  }

  /** A row that was read: from this minute of its day on these values hold. */
  record Row(int minute, String days, double[] values) {
    boolean belongsTo(int weekday) {
      return days.equals("all") || days.equals(weekday < 5 ? "workdays" : "weekend");
    }
  }

  @Override
  public Plant open(Settings settings, Problems problems, RandomStream random) {
    String[] columns = settings.text("columns").strip().split("\\s+");
    checkColumns(settings, columns, problems);
    int start = minute(settings, "time", problems);
    List<Row> rows = new ArrayList<>();
    for (Settings row : settings.named("rows").values()) {
      rows.add(row(row, columns.length, problems));
    }
    for (int day = 0; day < WEEK.size(); day++) {
      checkDay(settings, rows, day, problems);
    }
    rows.removeIf(r -> r.values == null);
    int weekday = WEEK.indexOf(settings.text("weekday"));
    return new Timetable(columns, rows, weekday * 1440 + Math.max(0, start));
  }

  private static void checkColumns(Settings settings, String[] columns, Problems problems) {
    TreeSet<String> seen = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    for (String column : columns) {
      if (!column.matches("[A-Za-z](_?[A-Za-z0-9])*") || !seen.add(column)) {
        problems.error(
            settings,
            "columns",
            "`" + column + "` cannot be the name of a column",
            "letters, digits and single underscores, each name once",
            "");
      }
    }
  }

  /** Minute of the day, or -1 after a problem. */
  private static int minute(Settings at, String parameter, Problems problems) {
    String text = at.text(parameter);
    if (!text.matches(CLOCK)) {
      problems.error(
          at, parameter, "`" + text + "` is no time of day", "hours and minutes such as 06:30", "");
      return -1;
    }
    return Integer.parseInt(text.substring(0, 2)) * 60 + Integer.parseInt(text.substring(3));
  }

  private static Row row(Settings row, int columns, Problems problems) {
    String[] words = row.text("values").strip().split("\\s+");
    double[] values = words.length == columns ? new double[columns] : null;
    if (values == null) {
      problems.error(
          row,
          "values",
          words.length + " values for " + columns + " columns",
          "one number for each column, with blanks between",
          "");
    }
    for (int i = 0; values != null && i < columns; i++) {
      if (!words[i].matches("-?\\d+(\\.\\d+)?")) {
        problems.error(row, "values", "`" + words[i] + "` is no number", "such as 0.25", "");
      } else {
        values[i] = Double.parseDouble(words[i]);
      }
    }
    return new Row(minute(row, "at", problems), row.text("days"), values);
  }

  private static void checkDay(Settings settings, List<Row> rows, int day, Problems problems) {
    List<Integer> minutes =
        rows.stream().filter(r -> r.belongsTo(day)).map(Row::minute).sorted().toList();
    if (!minutes.contains(0)) {
      problems.error(
          settings,
          "rows",
          "no row says what holds from 00:00 on " + WEEK.get(day),
          "a row at 00:00 for every day",
          "");
    }
    for (int i = 1; i < minutes.size(); i++) {
      if (minutes.get(i).equals(minutes.get(i - 1)) && minutes.get(i) >= 0) {
        String clock = clock(minutes.get(i));
        problems.error(
            settings, "rows", "two rows at " + clock + " on " + WEEK.get(day), "one of them", "");
      }
    }
  }

  private static String clock(int minute) {
    String hours = Integer.toString(100 + minute / 60).substring(1);
    return hours + ":" + Integer.toString(100 + minute % 60).substring(1);
  }
}
