package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;

/** What a point, or each element of an array, starts with: {@code initial}. */
final class InitialValues {
  private final TableReader reader;
  private final ValueType type;
  private final Diagnostics problems;
  private final List<Long> bits = new ArrayList<>();
  private final List<String> texts = new ArrayList<>();
  private boolean good = true;

  /**
   * Values not read yet.
   *
   * @param type null when it is not known
   */
  InitialValues(TableReader reader, ValueType type, Diagnostics problems) {
    this.reader = reader;
    this.type = type;
    this.problems = problems;
  }

  /** Reads them; an array takes a list with one for each element, or one for all. */
  void read(Name name) {
    Tree tree = reader.tree("initial");
    if (tree == null || type == null) {
      return;
    }
    boolean list = type.bounds() != null && tree instanceof Tree.Items;
    List<Tree> items = list ? ((Tree.Items) tree).items() : List.of(tree);
    if (list && items.size() != type.bounds().count()) {
      good = false;
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  tree.position(),
                  "`"
                      + name.text()
                      + "` has "
                      + type.bounds().count()
                      + " elements, `initial` gives "
                      + items.size())
              .expected("a value for each element, or one for all"));
    }
    for (Tree item : items) {
      one(new Tree.Entry(reader.entry("initial").key(), item));
    }
  }

  private void one(Tree.Entry entry) {
    boolean empty = entry.value() instanceof Tree.Scalar s && s.value().isEmpty();
    boolean string = type.type() == Type.STRING;
    SourceText text = string && empty ? null : TableReader.textOf(entry, problems);
    if (string) {
      String value = text == null ? "" : ExpressionReader.text(text, type.length(), problems);
      good &= value != null;
      texts.add(value == null ? "" : value);
      return;
    }
    Long value = text == null ? null : reader.value(text, type.type(), type.enumeration());
    good &= value != null;
    bits.add(value == null ? Long.valueOf(0) : value);
  }

  /** The cells of all of it, from the first on. */
  List<Long> cells() {
    List<Long> cells = new ArrayList<>();
    int elements = type.isArray() ? type.bounds().count() : 1;
    for (int i = 0; i < elements; i++) {
      cells.addAll(type.type() == Type.STRING ? StringCells.packed(text(i)) : List.of(bits(i)));
      while (cells.size() < (i + 1) * type.stride()) {
        cells.add(0L);
      }
    }
    return cells;
  }

  /** Whether nothing was wrong with them. */
  boolean isGood() {
    return good;
  }

  /** The value of the element of that number, from 0; 0 without one. */
  long bits(int number) {
    return bits.isEmpty() ? 0 : bits.get(Math.min(number, bits.size() - 1));
  }

  /** The same of a STRING; null for other types. */
  String text(int number) {
    if (type == null || type.type() != Type.STRING) {
      return null;
    }
    return texts.isEmpty() ? "" : texts.get(Math.min(number, texts.size() - 1));
  }
}
