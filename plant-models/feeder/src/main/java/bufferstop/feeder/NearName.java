package bufferstop.feeder;

import java.util.Collection;

/** The known name most like a mistyped one. */
final class NearName {
  private NearName() {}

  /**
   * A help text.
   *
   * @return a question with the nearest name, or the names there are
   */
  static String help(String what, String wrong, Collection<String> known) {
    String best = null;
    int least = Math.max(1, wrong.length() / 3) + 1;
    for (String each : known) {
      int distance = distance(wrong, each);
      if (distance < least) {
        least = distance;
        best = each;
      }
    }
    if (best != null) {
      return "did you mean `" + best + "`?";
    }
    return known.isEmpty() ? "there is no " + what : "there is " + String.join(", ", known);
  }

  /** Edit distance with transpositions of neighbours. */
  static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        d[i][j] = i == 0 ? j : j == 0 ? i : best(d, a, b, i, j);
      }
    }
    return d[a.length()][b.length()];
  }

  private static int best(int[][] d, String a, String b, int i, int j) {
    boolean same = a.charAt(i - 1) == b.charAt(j - 1);
    int least = Math.min(d[i - 1][j - 1] + (same ? 0 : 1), Math.min(d[i - 1][j], d[i][j - 1]) + 1);
    boolean swapped =
        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
    return swapped ? Math.min(least, d[i - 2][j - 2] + 1) : least;
  }
}
