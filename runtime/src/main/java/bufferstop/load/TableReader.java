package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Form;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Reads one mapping key by key and reports what does not fit. Every key asked for is known from
 * then on; {@link #finish} reports the others with the nearest known one, and what is missing.
 */
final class TableReader {
  private final Tree.Table table;
  private final Position at;
  private final String what;
  private final Form form; // null where the keys are names of the user's choice
  private final Diagnostics problems;
  private final Set<String> known = new TreeSet<>();
  private final Set<String> missing = new TreeSet<>();
  private final Map<String, String> elsewhere = new TreeMap<>();
  private Definitions definitions = Definitions.NONE;

  private TableReader(Tree.Table table, Position at, String what, Form form, Diagnostics problems) {
    this.table = table;
    this.at = at;
    this.what = what;
    this.form = form;
    this.problems = problems;
  }

  /**
   * Opens a mapping that no key leads to.
   *
   * @return null, after a diagnostic, when the tree is no mapping
   */
  static TableReader open(Tree tree, Form form, Diagnostics problems) {
    return open(tree, form.what(), form, problems);
  }

  /**
   * The same where keys are names of the user's choice.
   *
   * @param what it describes, for messages
   */
  static TableReader open(Tree tree, String what, Diagnostics problems) {
    return open(tree, what, null, problems);
  }

  private static TableReader open(Tree tree, String what, Form form, Diagnostics problems) {
    if (tree instanceof Tree.Table table) {
      return new TableReader(table, table.position(), what, form, problems);
    }
    problems.add(
        Diagnostic.error(
                Code.WRONG_KIND,
                tree.position(),
                "found " + kind(tree) + " where " + what + " is described")
            .expected("a mapping with keys"));
    return null;
  }

  /** The same, its values free to name constants; null for null. */
  static TableReader knowing(Definitions definitions, TableReader reader) {
    if (reader != null) {
      reader.definitions = definitions;
    }
    return reader;
  }

  /** Opens the mapping under a key, which is where missing keys are shown. */
  static TableReader open(Tree.Entry entry, Form form, Diagnostics problems) {
    return open(entry, form.what(), form, problems);
  }

  /** The same where keys are names of the user's choice. */
  static TableReader open(Tree.Entry entry, String what, Diagnostics problems) {
    return open(entry, what, null, problems);
  }

  private static TableReader open(Tree.Entry entry, String what, Form form, Diagnostics problems) {
    if (entry.value() instanceof Tree.Table table) {
      return new TableReader(table, entry.key().position(), what, form, problems);
    }
    problems.add(
        Diagnostic.error(
                Code.WRONG_KIND,
                place(entry),
                "`" + entry.key().text() + "` holds " + kind(entry.value()))
            .expected("a mapping that describes " + what));
    return null;
  }

  /** Where an entry's value is shown: its key when there is nothing to see. */
  static Position place(Tree.Entry entry) {
    boolean empty = entry.value() instanceof Tree.Scalar s && s.value().isEmpty();
    return empty ? entry.key().position() : entry.value().position();
  }

  private static String kind(Tree tree) {
    if (tree instanceof Tree.Scalar scalar) {
      return scalar.value().isEmpty() ? "nothing" : "a single value";
    }
    return tree instanceof Tree.Items ? "a list" : "a mapping";
  }

  /** Where the mapping begins. */
  Position position() {
    return table.position();
  }

  /** Where the mapping is shown as a whole: the key that leads to it, if any. */
  Position at() {
    return at;
  }

  /** The entry of an optional key, or null. */
  Tree.Entry entry(String key) {
    if (form != null && form.key(key) == null) {
      throw new IllegalStateException("the form of " + what + " has no key " + key);
    }
    known.add(key);
    for (Tree.Entry entry : table.entries()) {
      if (entry.key().text().equals(key)) {
        return entry;
      }
    }
    return null;
  }

  /** The value of an optional key, or null. */
  Tree tree(String key) {
    Tree.Entry entry = entry(key);
    return entry == null ? null : entry.value();
  }

  /** The value of a key that must be there; null when it is not, which {@link #finish} reports. */
  Tree required(String key) {
    Tree value = tree(key);
    if (value == null) {
      missing.add(key);
    }
    return value;
  }

  /** Whether a key is given, without making it a known one. */
  boolean has(String key) {
    return table.get(key) != null;
  }

  /** Whether an optional key is absent, but one is given that it may be a slip of the pen for. */
  boolean isMisspelt(String key) {
    List<String> given = table.entries().stream().map(e -> e.key().text()).toList();
    return !has(key) && !NearNames.of(key, given).isEmpty();
  }

  /** Those of some keys that are given. */
  List<String> given(List<String> keys) {
    return keys.stream().filter(k -> tree(k) != null).toList();
  }

  /** Text of an optional key; null when absent or when it is no text. */
  SourceText text(String key) {
    Tree.Entry entry = entry(key);
    return entry == null ? null : textOf(entry, problems);
  }

  SourceText requiredText(String key) {
    required(key);
    return text(key);
  }

  /** The single value of an entry; null after a diagnostic when it is none. */
  static SourceText textOf(Tree.Entry entry, Diagnostics problems) {
    if (entry.value() instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
      return scalar.text();
    }
    problems.add(
        Diagnostic.error(
                Code.WRONG_KIND,
                place(entry),
                "`" + entry.key().text() + "` holds " + kind(entry.value()))
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

  Name requiredName(String key) {
    required(key);
    return name(key);
  }

  /** One name or a list of names; empty when absent. */
  List<Name> names(String key) {
    Tree.Entry entry = entry(key);
    List<Name> names = new ArrayList<>();
    for (Tree tree : entry == null ? List.<Tree>of() : itemsOf(entry.value())) {
      if (tree instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
        names.add(new Name(scalar.value(), scalar.position()));
      } else {
        problems.add(
            Diagnostic.error(
                    Code.WRONG_KIND,
                    place(new Tree.Entry(entry.key(), tree)),
                    "`" + key + "` holds " + kind(tree) + " in place of a name")
                .expected("a name, or a list of names in [ ]"));
      }
    }
    return List.copyOf(names);
  }

  /** The same where at least one name is needed. */
  List<Name> requiredNames(String key) {
    if (required(key) instanceof Tree.Items items && items.items().isEmpty()) {
      problems.add(
          Diagnostic.error(Code.NOTHING_GIVEN, items.position(), "`" + key + "` names nothing")
              .expected("a name, or a list of names in [ ]"));
    }
    return names(key);
  }

  /** The items of a list, or a single one. */
  static List<Tree> itemsOf(Tree tree) {
    return tree instanceof Tree.Items list ? list.items() : List.of(tree);
  }

  boolean bool(String key, boolean otherwise) {
    Long value = literal(key, Type.BOOL);
    return value == null ? otherwise : value != 0;
  }

  /**
   * A literal or constant of that type in the encoding of {@link Type}; null when absent or wrong.
   */
  Long literal(String key, Type type) {
    SourceText text = text(key);
    return text == null ? null : value(text, type, null);
  }

  /**
   * A literal, or what constants come to.
   *
   * @param enumeration when the type is ENUM
   * @return null after a diagnostic
   */
  Long value(SourceText text, Type type, Enumeration enumeration) {
    if (definitions.hasNoValues()) {
      return ExpressionReader.literal(text, type, problems);
    }
    Expression value = ExpressionReader.constant(text, type, enumeration, definitions, problems);
    return value == null ? null : value.constant();
  }

  /** A duration in microseconds, at least {@code least}. */
  long time(String key, long otherwise, long least) {
    SourceText text = text(key);
    Long value = text == null ? null : value(text, Type.TIME, null);
    if (value == null) {
      return otherwise;
    }
    if (value < least) {
      problems.add(
          Diagnostic.error(Code.OUT_OF_RANGE, text.whole(), "`" + key + "` is " + text.value())
              .expected("at least " + Values.time(least)));
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
    Diagnostics found = new Diagnostics();
    Long value = ExpressionReader.literal(text, Type.LINT, found);
    String expected = "a whole number from " + least + " to " + greatest;
    found.sorted().forEach(d -> problems.add(d.expected(expected)));
    if (value != null && (value < least || value > greatest)) {
      problems.add(
          Diagnostic.error(Code.OUT_OF_RANGE, text.whole(), "`" + key + "` is " + text.value())
              .expected(expected));
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
        Diagnostic.error(
                Code.BAD_LITERAL, text.whole(), "`" + key + "` cannot be `" + text.value() + "`")
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

  /** Says of a key that is wrong here where it would be right. */
  void belongs(String key, String where) {
    elsewhere.put(key, where);
  }

  /**
   * Reports keys nobody asked for, and keys that are missing, but not both for one slip of the pen.
   *
   * @return whether every key given was known
   */
  boolean finish() {
    List<String> unknown = new ArrayList<>();
    for (Tree.Entry entry : table.entries()) {
      Name key = entry.key();
      if (!known.contains(key.text())) {
        unknown.add(key.text());
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_KEY, key.position(), "unknown key `" + key.text() + "` in " + what)
                .expected(String.join(", ", known))
                .help(help(entry)));
      }
    }
    for (String key : missing) {
      if (NearNames.of(key, unknown).isEmpty()) {
        problems.add(
            Diagnostic.error(Code.MISSING_KEY, at, what + " needs `" + key + "`")
                .help("add `" + key + ":`"));
      }
    }
    return unknown.isEmpty();
  }

  private String help(Tree.Entry unknown) {
    String key = unknown.key().text();
    String where = elsewhere.get(key);
    if (where != null) {
      return "`" + key + "` belongs to " + where;
    }
    String near = NearNames.question(key, known);
    boolean alone = unknown.value() instanceof Tree.Scalar s && s.value().isEmpty();
    return near.isEmpty() && alone && table.flow()
        ? "if it belongs to the value before the comma, put that value in quotes"
        : near;
  }
}
