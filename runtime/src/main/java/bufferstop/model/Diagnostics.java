package bufferstop.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/**
 * Collects the problems of one pass, and the names whose declaration was reported, so that what
 * depends on them can stay silent. Not thread-safe.
 */
public final class Diagnostics {
  private final List<Diagnostic> all = new ArrayList<>();
  private final Set<String> doubted = new TreeSet<>();
  private final List<SourceText> places = new ArrayList<>();
  private boolean allDoubted;

  public void add(Diagnostic diagnostic) {
    all.add(diagnostic);
  }

  /** Whether anything was found that forbids a run. */
  public boolean hasErrors() {
    return errors() > 0;
  }

  /** How many errors were added so far. */
  public int errors() {
    return (int) all.stream().filter(d -> d.severity() == Diagnostic.Severity.ERROR).count();
  }

  /** Notes that a name, and whatever is dotted below it, has a wrong declaration, reported. */
  public void doubt(String name) {
    doubted.add(name.toLowerCase(Locale.ROOT));
  }

  /** Notes that a part which may declare any name could not be read, and was reported. */
  public void doubtAll() {
    allDoubted = true;
  }

  /** Whether a name that cannot be found is explained by an error reported already. */
  public boolean doubts(String name) {
    return hasErrors() && isDoubted(name);
  }

  private boolean isDoubted(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    if (allDoubted || doubted.contains(lower)) {
      return true;
    }
    for (int dot = lower.indexOf('.'); dot >= 0; dot = lower.indexOf('.', dot + 1)) {
      if (doubted.contains(lower.substring(0, dot))) {
        return true;
      }
    }
    return false;
  }

  /** Notes an expression that may fail in a run. Returns its number, from 1. */
  public int placeOf(SourceText expression) {
    places.add(expression);
    return places.size();
  }

  /** The expressions that may fail in a run, in the order of their numbers. */
  public List<SourceText> places() {
    return List.copyOf(places);
  }

  /** Everything found, once each, by file, line and column. */
  public List<Diagnostic> sorted() {
    return all.stream().distinct().sorted(Comparator.comparing(Diagnostic::position)).toList();
  }
}
