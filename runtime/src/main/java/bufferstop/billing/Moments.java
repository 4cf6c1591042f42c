package bufferstop.billing;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;

/** Dates and times as bills show them. */
public final class Moments {
  private static final DateTimeFormatter MINUTES = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm");
  private static final DateTimeFormatter SECONDS =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss");

  private Moments() {}

  /** To the minute, or to the second where it has some. */
  public static String text(LocalDateTime moment) {
    return moment.format(moment.getSecond() == 0 ? MINUTES : SECONDS);
  }
}
