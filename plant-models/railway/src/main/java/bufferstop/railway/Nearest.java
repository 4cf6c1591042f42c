package bufferstop.railway;

import java.util.Collection;
import java.util.Locale;

/** The name somebody probably meant. */
final class Nearest {
  private Nearest() {}

  /** A question with the nearest of the names known, empty when none is near. */
  static String question(String wrong, Collection<String> known) {
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

  /** Edit distance: letters to insert, delete or replace, or neighbours to exchange. */
  static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(d[i - 1][j - 1] + same, Math.min(d[i - 1][j], d[i][j - 1]) + 1);
        boolean crossed =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (crossed) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
