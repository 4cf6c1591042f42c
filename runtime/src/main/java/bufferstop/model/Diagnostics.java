package bufferstop.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Collects the problems of one pass. Not thread-safe. */
public final class Diagnostics {
  private final List<Diagnostic> all = new ArrayList<>();

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

  /** Everything found, once each, by file, line and column. */
  public List<Diagnostic> sorted() {
    return all.stream().distinct().sorted(Comparator.comparing(Diagnostic::position)).toList();
  }
}
