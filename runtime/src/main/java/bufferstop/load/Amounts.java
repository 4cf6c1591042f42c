package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.MonthDay;

/** Reads decimal numbers exactly as written, and dates and times of a calendar without zones. */
final class Amounts {
  private static final String DATE = "\\d{4}-\\d\\d-\\d\\d";
  private static final String CLOCK = "\\d\\d:\\d\\d(:\\d\\d)?";
  private static final int DIGITS = 12;
  private static final int MINUTES = 1440;

  private final Diagnostics problems;

  Amounts(Diagnostics problems) {
    this.problems = problems;
  }

  /** As tariffs and periods are written. */
  static String text(LocalDateTime moment) {
    LocalTime time = moment.toLocalTime();
    return moment.toLocalDate() + (time.equals(LocalTime.MIDNIGHT) ? "" : " " + time);
  }

  /** A number within bounds; {@code otherwise} when absent or wrong. */
  BigDecimal decimal(
      TableReader reader, String key, BigDecimal least, BigDecimal greatest, BigDecimal otherwise) {
    SourceText text = reader.text(key);
    BigDecimal value = text == null ? null : decimal(text, least, greatest);
    return value == null ? otherwise : value;
  }

  /** Null after a diagnostic. */
  BigDecimal decimal(SourceText text, BigDecimal least, BigDecimal greatest) {
    String digits = text.value();
    boolean plain = digits.matches("\\d+(\\.\\d+)?") && digits.length() <= DIGITS;
    BigDecimal value = plain ? new BigDecimal(digits) : null;
    if (value == null || value.compareTo(least) < 0 || value.compareTo(greatest) > 0) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  text.whole(),
                  "`" + digits + "` is " + (plain ? "out of range" : "no decimal number"))
              .expected(
                  "a number from "
                      + least.toPlainString()
                      + " to "
                      + greatest.toPlainString()
                      + ", such as 0.1125"));
      return null;
    }
    return value;
  }

  /** A date; null when absent or after a diagnostic. */
  LocalDate date(TableReader reader, String key) {
    SourceText text = reader.text(key);
    return text == null ? null : date(text, text.value());
  }

  private LocalDate date(SourceText text, String date) {
    try {
      if (date.matches(DATE)) {
        return LocalDate.parse(date);
      }
    } catch (DateTimeException e) {
      // said below
    }
    problems.add(
        Diagnostic.error(Code.BAD_LITERAL, text.whole(), "`" + text.value() + "` is no date")
            .expected("year, month and day, such as 2026-03-01"));
    return null;
  }

  /** A date, with or without a time of day behind a blank; null when absent or wrong. */
  LocalDateTime moment(TableReader reader, String key) {
    SourceText text = reader.text(key);
    if (text == null) {
      return null;
    }
    String[] parts = text.value().split(" ", 2);
    if (parts.length == 1) {
      LocalDate date = date(text, parts[0]);
      return date == null ? null : date.atStartOfDay();
    }
    try {
      if (parts[0].matches(DATE) && parts[1].matches(CLOCK)) {
        return LocalDate.parse(parts[0]).atTime(LocalTime.parse(parts[1]));
      }
    } catch (DateTimeException e) {
      // said below
    }
    problems.add(
        Diagnostic.error(
                Code.BAD_LITERAL,
                text.whole(),
                "`" + text.value() + "` is no date with a time of day")
            .expected("such as 2026-03-01, or 2026-03-01 06:30; local time without a zone"));
    return null;
  }

  /** A day of any year; 02-29 is in those that have it. */
  MonthDay dayOfYear(TableReader reader, String key) {
    SourceText text = reader.text(key);
    if (text == null) {
      return null;
    }
    try {
      if (text.value().matches("\\d\\d-\\d\\d")) {
        return MonthDay.parse("--" + text.value());
      }
    } catch (DateTimeException e) {
      // said below
    }
    problems.add(
        Diagnostic.error(
                Code.BAD_LITERAL, text.whole(), "`" + text.value() + "` is no day of the year")
            .expected("month and day, such as 11-01"));
    return null;
  }

  /** Two times of day with a dash between, as minutes; null after a diagnostic. */
  int[] hours(SourceText text) {
    String[] parts = text.value().split("-", -1);
    int from = parts.length == 2 ? minute(parts[0].strip()) : -1;
    int to = parts.length == 2 ? minute(parts[1].strip()) : -1;
    if (from < 0 || to < 0 || from == to || from == MINUTES) {
      problems.add(
          Diagnostic.error(Code.BAD_LITERAL, text.whole(), "`" + text.value() + "` are no hours")
              .expected("such as 07:00-23:00, or 22:00-06:00 over midnight; the end is not part"));
      return null;
    }
    return new int[] {from, to};
  }

  private static int minute(String text) {
    if (text.equals("24:00")) {
      return MINUTES;
    }
    boolean clock = text.matches("([01]\\d|2[0-3]):[0-5]\\d");
    return clock
        ? Integer.parseInt(text.substring(0, 2)) * 60 + Integer.parseInt(text.substring(3))
        : -1;
  }
}
