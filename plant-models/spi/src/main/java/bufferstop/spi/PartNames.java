package bufferstop.spi;

import java.util.Collection;
import java.util.Locale;
import java.util.regex.Pattern;

/** Names that settings give to parts of a plant, after which their ports are called. */
public final class PartNames {
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9]*(_[a-z0-9]+)*");

  private PartNames() {}

  /**
   * Reports a name that cannot be part of a port's.
   *
   * @param at the mapping the name stands for, or in
   * @return whether it can
   */
  public static boolean check(Problems problems, Settings at, String name) {
    boolean good = NAME.matcher(name).matches();
    if (!good) {
      problems.error(
          at,
          name,
          "`" + name + "` cannot be part of a port's name",
          "a lower-case letter, then lower-case letters, digits or underscores",
          "rename it");
    }
    return good;
  }

  /**
   * The known name most like a mistyped one, at an edit distance (case counts nothing, exchanged
   * neighbours 1) up to a third of its length, at least 1.
   *
   * @return a question for the help of an error; empty when none is near
   */
  public static String nearest(String wrong, Collection<String> known) {
    String best = "";
    int least = Math.max(1, wrong.length() / 3) + 1;
    for (String name : known) {
      int distance = distance(wrong.toLowerCase(Locale.ROOT), name.toLowerCase(Locale.ROOT));
      if (distance < least) {
        least = distance;
        best = name;
      }
    }
    return best.isEmpty() ? "" : "did you mean `" + best + "`?";
  }

  /** Letters to insert, delete or replace, or neighbours to exchange. */
  private static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        d[i][j] = i == 0 || j == 0 ? i + j : least(d, a, b, i, j);
      }
    }
    return d[a.length()][b.length()];
  }

  private static int least(int[][] d, String a, String b, int i, int j) {
    int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
    int least = Math.min(d[i - 1][j - 1] + same, Math.min(d[i - 1][j], d[i][j - 1]) + 1);
    boolean crossed =
        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
    return crossed ? Math.min(least, d[i - 2][j - 2] + 1) : least;
  }
}
