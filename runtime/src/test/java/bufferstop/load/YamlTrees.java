package bufferstop.load;

import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;

/** Reads YAML text for tests, and finds values by key. */
final class YamlTrees {
  private YamlTrees() {}

  static Tree.Table table(String text, Diagnostics problems) {
    return (Tree.Table) YamlSource.read("x.yaml", text, problems);
  }

  /** The text under the keys of a path, from a file without problems. */
  static SourceText text(String yaml, String... path) {
    Diagnostics problems = new Diagnostics();
    Tree tree = table(yaml, problems);
    for (String key : path) {
      tree = ((Tree.Table) tree).get(key);
    }
    if (problems.hasErrors()) {
      throw new IllegalArgumentException(problems.sorted().toString());
    }
    return ((Tree.Scalar) tree).text();
  }

  /** {@code line:column+length} of a part of a text. */
  static String place(SourceText text, String part) {
    int start = text.value().indexOf(part);
    if (start < 0) {
      throw new IllegalArgumentException("no " + part + " in " + text.value());
    }
    Position position = text.at(start, start + part.length());
    return position.line() + ":" + position.column() + "+" + position.length();
  }
}
