package bufferstop.model;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Finds the names a user may have meant. */
public final class NearNames {
  private static final int MOST = 3;

  private NearNames() {}

  private record Candidate(String name, int distance) {}

  /**
   * At most three names at an edit distance (a transposition counts 1, case none) up to a third of
   * the length, at least 1, nearest first; nothing but its case is near a single letter.
   */
  public static List<String> of(String wrong, Collection<String> known) {
    String lower = wrong.toLowerCase(Locale.ROOT);
    int limit = Math.max(1, wrong.length() / 3);
    return known.stream()
        .filter(name -> Math.abs(name.length() - wrong.length()) <= limit)
        .map(name -> new Candidate(name, distance(lower, name.toLowerCase(Locale.ROOT))))
        .filter(c -> c.distance <= limit && (c.distance == 0 || wrong.length() > 1))
        .sorted(Comparator.comparingInt(Candidate::distance).thenComparing(Candidate::name))
        .limit(MOST)
        .map(Candidate::name)
        .toList();
  }

  /** {@code did you mean `a` or `b`?}, or an empty string when nothing is near. */
  public static String question(String wrong, Collection<String> known) {
    List<String> near = of(wrong, known);
    return near.isEmpty()
        ? ""
        : near.stream()
            .map(n -> "`" + n + "`")
            .collect(Collectors.joining(" or ", "did you mean ", "?"));
  }

  /** Optimal string alignment distance. */
  private static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      d[i][0] = i;
    }
    for (int j = 0; j <= b.length(); j++) {
      d[0][j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      for (int j = 1; j <= b.length(); j++) {
        int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(d[i - 1][j - 1] + cost, Math.min(d[i - 1][j], d[i][j - 1]) + 1);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
