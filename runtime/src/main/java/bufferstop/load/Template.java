package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Fills in what a scenario leaves open: {@code $name} by its parameters, {@code {random: [a, b]}}
 * and {@code {one_of: [a, b, c]}} by the seed. What is drawn depends on the seed and on the place
 * in the scenario: the keys that lead to it, items of a list by their {@code id} or else their
 * number.
 */
final class Template {
  private static final Pattern USE = Pattern.compile("'[^']*'|\\$([A-Za-z][A-Za-z0-9_]*)");
  private static final double MICROS_PER_MILLI = 1000.0;
  private static final double UNIT = 0x1.0p-53;

  private final Map<String, Tree> parameters;
  private final long seed;
  private final Diagnostics problems;

  /**
   * @param parameters values by name
   */
  Template(Map<String, Tree> parameters, long seed, Diagnostics problems) {
    this.parameters = parameters;
    this.seed = seed;
    this.problems = problems;
  }

  /** The tree with everything filled in; what is wrong is reported and stays as it is. */
  Tree fill(Tree tree, String path) {
    if (tree instanceof Tree.Scalar scalar) {
      return filled(scalar, path);
    }
    if (tree instanceof Tree.Items items) {
      List<Tree> all = new ArrayList<>();
      for (Tree item : items.items()) {
        all.add(fill(item, path + "/" + label(item, all.size())));
      }
      return new Tree.Items(List.copyOf(all), items.position());
    }
    Tree.Table table = (Tree.Table) tree;
    Tree.Items bounds = only(table, "random");
    if (bounds != null) {
      return random(bounds, path);
    }
    Tree.Items choices = only(table, "one_of");
    if (choices != null && !choices.items().isEmpty()) {
      long drawn = new Draw(seed, path).next(choices.items().size());
      return fill(choices.items().get((int) drawn), path);
    }
    List<Tree.Entry> entries = new ArrayList<>();
    for (Tree.Entry entry : table.entries()) {
      String key = entry.key().text();
      entries.add(new Tree.Entry(entry.key(), fill(entry.value(), path + "/" + key)));
    }
    return new Tree.Table(List.copyOf(entries), table.flow(), table.position());
  }

  /** Items of a list filled in; one that cannot be is left out, since all was said of it. */
  List<Tree> fill(List<Tree> items, String path) {
    List<Tree> all = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      int before = problems.errors();
      Tree filled = fill(items.get(i), path + "/" + label(items.get(i), i));
      if (problems.errors() == before) {
        all.add(filled);
      }
    }
    return all;
  }

  private static String label(Tree item, int number) {
    boolean named = item instanceof Tree.Table table && table.get("id") instanceof Tree.Scalar;
    return named ? ((Tree.Scalar) ((Tree.Table) item).get("id")).value() : Integer.toString(number);
  }

  private static Tree.Items only(Tree.Table table, String key) {
    return table.entries().size() == 1 && table.get(key) instanceof Tree.Items items ? items : null;
  }

  private Tree filled(Tree.Scalar scalar, String path) {
    SourceText text = scalar.text();
    Matcher use = USE.matcher(text.value());
    if (text.value().indexOf('$') < 0 || !use.find()) {
      return scalar;
    }
    List<SourceText> pieces = new ArrayList<>();
    int end = 0;
    do {
      Tree value =
          use.group(1) == null ? null : value(use.group(1), text.at(use.start(), use.end()));
      if (value != null && !(value instanceof Tree.Scalar) && use.group().equals(text.value())) {
        return fill(value, path); // the whole value is the parameter: anything may stand there
      }
      if (value instanceof Tree.Scalar put) {
        pieces.add(text.part(end, use.start()));
        pieces.add(at(put.value(), text.at(use.start(), use.end())));
        end = use.end();
      }
    } while (use.find());
    pieces.add(text.part(end, text.value().length()));
    return new Tree.Scalar(joined(pieces), scalar.position());
  }

  private Tree value(String name, Position at) {
    Tree value = parameters.get(name);
    if (value == null) {
      problems.add(
          Diagnostic.error(Code.UNKNOWN_NAME, at, "no parameter named `" + name + "`")
              .expected("a name under `parameters`, or in every row of `table`")
              .help(NearNames.question(name, parameters.keySet())));
    }
    return value;
  }

  private static SourceText joined(List<SourceText> pieces) {
    StringBuilder value = new StringBuilder();
    pieces.forEach(p -> value.append(p.value()));
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    int at = 0;
    for (SourceText piece : pieces) {
      int length = piece.value().length();
      System.arraycopy(piece.lines(), 0, lines, at, length + 1);
      System.arraycopy(piece.columns(), 0, columns, at, length + 1);
      at += length;
    }
    return new SourceText(value.toString(), pieces.get(0).file(), lines, columns);
  }

  /** Text that stands for what the user wrote at a place; all of it is shown there. */
  private static SourceText at(String value, Position place) {
    int[] lines = new int[value.length() + 1];
    int[] columns = new int[value.length() + 1];
    Arrays.fill(lines, place.line());
    Arrays.fill(columns, place.column());
    columns[Math.max(0, value.length() - 1)] = place.column() + place.length() - 1;
    return new SourceText(value, place.file(), lines, columns);
  }

  private Tree random(Tree.Items bounds, String path) {
    List<SourceText> texts = new ArrayList<>();
    for (Tree bound : bounds.items()) {
      if (fill(bound, path) instanceof Tree.Scalar scalar) {
        texts.add(scalar.text());
      }
    }
    String drawn = texts.size() == 2 && bounds.items().size() == 2 ? drawn(texts, path) : null;
    if (drawn == null) {
      problems.add(
          Diagnostic.error(Code.BAD_RANGE, bounds.position(), "nothing can be drawn between these")
              .expected("the least and the greatest value: [T#1s, T#5s], [1, 6] or [0.5, 2.0]"));
      drawn = texts.isEmpty() ? "0" : texts.get(0).value();
    }
    return new Tree.Scalar(at(drawn, bounds.position()), bounds.position());
  }

  private String drawn(List<SourceText> bounds, String path) {
    for (Type type : List.of(Type.TIME, Type.LINT, Type.LREAL)) {
      Diagnostics none = new Diagnostics();
      Long least = ExpressionReader.literal(bounds.get(0), type, none);
      Long greatest = ExpressionReader.literal(bounds.get(1), type, none);
      if (least != null && greatest != null) {
        return type.compare(least, greatest) > 0
            ? null
            : drawn(type, least, greatest, new Draw(seed, path));
      }
    }
    return null;
  }

  private static String drawn(Type type, long least, long greatest, Draw draw) {
    if (type == Type.LREAL) {
      double low = Double.longBitsToDouble(least);
      double high = Double.longBitsToDouble(greatest);
      return Double.toString(low + (draw.next() >>> 11) * UNIT * (high - low));
    }
    long value = least + draw.next(greatest - least + 1);
    return type == Type.LINT ? Long.toString(value) : "T#" + value / MICROS_PER_MILLI + "ms";
  }

  /** The value of one parameter as people read it. */
  static String shown(Tree value) {
    return value instanceof Tree.Scalar scalar ? scalar.value() : "...";
  }
}
