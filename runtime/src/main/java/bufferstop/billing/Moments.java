package bufferstop.billing;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;

/** Dates and times as bills show them. */
public final class Moments {
  private static final DateTimeFormatter MINUTES = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");

  private Moments() {}

  /** To the minute. */
  public static String text(LocalDateTime moment) {
    return moment.format(MINUTES);
  }
}
