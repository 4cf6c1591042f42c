package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/**
 * Reads one mapping key by key and reports what does not fit. Every key asked for is known from
 * then on; {@link #finish} reports the others with the nearest known one.
 */
final class TableReader {
  private static final Set<String> NO_KEYS = Set.of();

  private final Tree.Table table;
  private final String what;
  private final Diagnostics problems;
  private final Set<String> known = new TreeSet<>();

  private TableReader(Tree.Table table, String what, Diagnostics problems) {
    this.table = table;
    this.what = what;
    this.problems = problems;
  }

  /**
   * Opens a mapping.
   *
   * @param what it describes, for messages: {@code an input}
   * @return null, after a diagnostic, when the tree is no mapping
   */
  static TableReader open(Tree tree, String what, Diagnostics problems) {
    if (tree instanceof Tree.Table table) {
      return new TableReader(table, what, problems);
    }
    String found = tree instanceof Tree.Items ? "a list" : "a single value";
    problems.add(
        Diagnostic.error(tree.position(), "found " + found + " where " + what + " is described")
            .expected("a mapping with keys"));
    return null;
  }

  /** The same over a mapping that is known to be one. */
  static TableReader of(Tree.Table table, String what, Diagnostics problems) {
    return new TableReader(table, what, problems);
  }

  Position position() {
    return table.position();
  }

  /** The value of an optional key, or null. */
  Tree tree(String key) {
    known.add(key);
    return table.get(key);
  }

  /** The value of a key that must be there, or null after a diagnostic. */
  Tree required(String key, Position at) {
    Tree value = tree(key);
    if (value == null) {
      problems.add(Diagnostic.error(at, what + " needs `" + key + "`").help("add `" + key + ":`"));
    }
    return value;
  }

  /** Text of an optional key; null when absent or when it is no text. */
  SourceText text(String key) {
    return scalarText(key, tree(key));
  }

  SourceText requiredText(String key, Position at) {
    return scalarText(key, required(key, at));
  }

  private SourceText scalarText(String key, Tree value) {
    if (value == null) {
      return null;
    }
    if (value instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
      return scalar.text();
    }
    String found = value instanceof Tree.Scalar ? "nothing" : "a list or mapping";
    problems.add(
        Diagnostic.error(value.position(), "`" + key + "` holds " + found)
            .expected("a single value"));
    return null;
  }

  /** Plain words of an optional key, empty when absent. */
  String words(String key) {
    SourceText text = text(key);
    return text == null ? "" : text.value();
  }

  Name name(String key) {
    SourceText text = text(key);
    return text == null ? null : new Name(text.value(), text.whole());
  }

  Name requiredName(String key, Position at) {
    SourceText text = requiredText(key, at);
    return text == null ? null : new Name(text.value(), text.whole());
  }

  /** One name or a list of names; empty when absent. */
  List<Name> names(String key) {
    return namesOf(key, tree(key));
  }

  private List<Name> namesOf(String key, Tree value) {
    List<Name> names = new ArrayList<>();
    List<Tree> trees =
        value == null ? List.of() : value instanceof Tree.Items i ? i.items() : List.of(value);
    for (Tree tree : trees) {
      if (tree instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
        names.add(new Name(scalar.value(), scalar.position()));
      } else {
        problems.add(
            Diagnostic.error(tree.position(), "`" + key + "` holds something that is no name")
                .expected("a name, or a list of names in [ ]"));
      }
    }
    return List.copyOf(names);
  }

  List<Name> requiredNames(String key, Position at) {
    return namesOf(key, required(key, at));
  }

  boolean bool(String key, boolean otherwise) {
    Long value = literal(key, Type.BOOL);
    return value == null ? otherwise : value != 0;
  }

  /** A literal of that type in the encoding of {@link Type}; null when absent or wrong. */
  Long literal(String key, Type type) {
    SourceText text = text(key);
    return text == null ? null : ExpressionReader.literal(text, type, problems);
  }

  /** A duration in microseconds, at least {@code least}. */
  long time(String key, long otherwise, long least) {
    SourceText text = text(key);
    Long value = text == null ? null : ExpressionReader.literal(text, Type.TIME, problems);
    if (value == null) {
      return otherwise;
    }
    if (value < least) {
      problems.add(
          Diagnostic.error(text.whole(), "`" + key + "` is " + text.value())
              .expected("at least " + bufferstop.model.Values.time(least)));
      return otherwise;
    }
    return value;
  }

  /** A whole number within bounds; {@code otherwise} when absent or wrong. */
  long whole(String key, long otherwise, long least, long greatest) {
    SourceText text = text(key);
    if (text == null) {
      return otherwise;
    }
    Long value = ExpressionReader.literal(text, Type.LINT, problems);
    if (value != null && (value < least || value > greatest)) {
      problems.add(
          Diagnostic.error(text.whole(), "`" + key + "` is " + text.value())
              .expected("a whole number from " + least + " to " + greatest));
      return otherwise;
    }
    return value == null ? otherwise : value;
  }

  /** One of the words of an enumeration, lower case with underscores. */
  <E extends Enum<E>> E choice(String key, Class<E> words, E otherwise) {
    SourceText text = text(key);
    if (text == null) {
      return otherwise;
    }
    List<String> all = new ArrayList<>();
    for (E word : words.getEnumConstants()) {
      String lower = word.name().toLowerCase(Locale.ROOT);
      if (lower.equalsIgnoreCase(text.value())) {
        return word;
      }
      all.add(lower);
    }
    problems.add(
        Diagnostic.error(text.whole(), "`" + key + "` cannot be `" + text.value() + "`")
            .expected(String.join(", ", all))
            .help(NearNames.question(text.value(), all)));
    return otherwise;
  }

  /** Every entry, for mappings whose keys are the user's own names. */
  List<Tree.Entry> entries() {
    for (Tree.Entry entry : table.entries()) {
      known.add(entry.key().text());
    }
    return table.entries();
  }

  /** Reports keys nobody asked for. */
  void finish() {
    finish(NO_KEYS);
  }

  /** Reports keys nobody asked for; {@code more} are known besides. */
  void finish(Set<String> more) {
    Set<String> all = new TreeSet<>(known);
    all.addAll(more);
    for (Tree.Entry entry : table.entries()) {
      Name key = entry.key();
      if (!all.contains(key.text())) {
        problems.add(
            Diagnostic.error(key.position(), "unknown key `" + key.text() + "` in " + what)
                .expected(String.join(", ", all))
                .help(NearNames.question(key.text(), all)));
      }
    }
  }
}
