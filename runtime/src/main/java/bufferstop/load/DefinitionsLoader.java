package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Name;
import bufferstop.model.NamedConstant;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;

/** Reads {@code types} and {@code constants}, which all the rest may use. */
final class DefinitionsLoader {
  private static final int MOST_VALUES = 1000;

  private final Sections sections;
  private final Diagnostics problems;
  private final List<Enumeration> enumerations = new ArrayList<>();
  private final List<NamedConstant> constants = new ArrayList<>();

  DefinitionsLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** Adds those of a library or of the controller. */
  void read(TableReader from) {
    for (Tree.Entry entry : sections.names(from, "types", "enumerations by name")) {
      Enumeration enumeration = enumeration(entry);
      if (enumeration != null) {
        enumerations.add(enumeration);
      }
    }
    for (Tree.Entry entry : sections.names(from, "constants", "constants by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      NamedConstant constant = constant(entry);
      if (constant != null && named) {
        constants.add(constant);
      } else {
        problems.doubt(entry.key().text());
      }
    }
  }

  /** What was read so far. */
  Definitions known() {
    return new Definitions(List.copyOf(enumerations), List.copyOf(constants), List.of());
  }

  /** Null after a diagnostic. */
  private Enumeration enumeration(Tree.Entry entry) {
    Name name = entry.key();
    if (!Identifiers.check(name, problems)) {
      return null;
    }
    Enumeration first = known().enumeration(name.text());
    if (first != null || name.text().equalsIgnoreCase("t")) {
      Diagnostic taken =
          Diagnostic.error(
              first == null ? Code.BAD_NAME : Code.DECLARED_TWICE,
              name.position(),
              first == null
                  ? "`" + name.text() + "` cannot name a type: `T#` begins a TIME"
                  : "`" + name.text() + "` is declared twice");
      problems.add(first == null ? taken : taken.note(first.position(), "first here"));
      return null;
    }
    if (!(entry.value() instanceof Tree.Items items) || items.items().isEmpty()) {
      problems.add(
          Diagnostic.error(
                  Code.NOTHING_GIVEN,
                  TableReader.place(entry),
                  "`" + name.text() + "` has no list of values")
              .expected("the names of its values: [off, hand, automatic]"));
      return null;
    }
    List<String> values = values(items, name);
    return values == null ? null : new Enumeration(name.text(), values, name.position());
  }

  private List<String> values(Tree.Items items, Name type) {
    List<String> values = new ArrayList<>();
    boolean good = items.items().size() <= MOST_VALUES;
    if (!good) {
      problems.add(
          Diagnostic.error(
                  Code.TOO_MANY, items.position(), "`" + type.text() + "` has too many values")
              .expected("at most " + MOST_VALUES));
    }
    for (Tree item : items.items()) {
      if (!(item instanceof Tree.Scalar scalar)) {
        problems.add(
            Diagnostic.error(Code.BAD_NAME, item.position(), "this is no name of a value"));
        good = false;
      } else if (!Identifiers.check(new Name(scalar.value(), scalar.position()), problems)) {
        good = false;
      } else if (values.stream().anyMatch(scalar.value()::equalsIgnoreCase)) {
        problems.add(
            Diagnostic.error(
                Code.GIVEN_TWICE,
                scalar.position(),
                "`" + type.text() + "` has `" + scalar.value() + "` twice"));
        good = false;
      } else {
        values.add(scalar.value());
      }
    }
    return good ? List.copyOf(values) : null;
  }

  /** Null after a diagnostic. */
  private NamedConstant constant(Tree.Entry entry) {
    if (entry.value() instanceof Tree.Scalar) {
      SourceText text = TableReader.textOf(entry, problems);
      return text == null ? null : constant(entry.key(), text, null, null);
    }
    TableReader reader = TableReader.open(entry, ControllerForms.CONSTANT, problems);
    if (reader == null) {
      return null;
    }
    SourceText typeText = reader.requiredText("type");
    ValueType type =
        typeText == null ? null : DeclaredType.read(typeText, entry.key(), known(), problems);
    SourceText value = reader.requiredText("value");
    reader.finish();
    if (type != null && type.bounds() != null) {
      problems.add(
          Diagnostic.error(Code.UNKNOWN_TYPE, typeText.whole(), "a constant is no array")
              .expected("a constant for each value"));
      return null;
    }
    if (type == null || value == null) {
      return null;
    }
    if (type.type() != Type.STRING) {
      return constant(entry.key(), value, type.type(), type.enumeration());
    }
    String text = ExpressionReader.text(value, type.length(), problems);
    return text == null
        ? null
        : new NamedConstant(entry.key().text(), Type.STRING, null, 0, text, entry.key().position());
  }

  private NamedConstant constant(Name name, SourceText text, Type type, Enumeration enumeration) {
    Expression value = ExpressionReader.constant(text, type, enumeration, known(), problems);
    if (value == null) {
      return null;
    }
    long bits = value.text() == null ? value.constant() : 0;
    return new NamedConstant(
        name.text(), value.type(), value.enumeration(), bits, value.text(), name.position());
  }
}
