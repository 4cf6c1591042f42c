package bufferstop.load;

import bufferstop.model.ArrayBounds;
import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads a type as a declaration writes it. */
final class DeclaredType {
  private static final int DEFAULT_LENGTH = 80;
  private static final int MOST_ELEMENTS = 10_000;
  private static final Pattern ARRAY =
      Pattern.compile("(?i)ARRAY\\s*\\[(.*?)\\.\\.([^\\]]*)\\]\\s*OF\\s+(.*)");
  private static final Pattern ARRAY_ALIKE = Pattern.compile("(?i)ARRAY\\b.*");
  private static final Pattern STRING = Pattern.compile("(?i)STRING\\s*(?:\\[(.*)\\])?");

  private DeclaredType() {}

  /**
   * Reads a type.
   *
   * @param name of what is declared
   * @return null after a diagnostic
   */
  static ValueType read(SourceText text, Name name, Definitions definitions, Diagnostics problems) {
    Matcher array = ARRAY.matcher(text.value());
    if (array.matches()) {
      return array(text, array, name, definitions, problems);
    }
    Matcher string = STRING.matcher(text.value());
    if (string.matches()) {
      Integer length =
          string.group(1) == null
              ? Integer.valueOf(DEFAULT_LENGTH)
              : whole(text.part(string.start(1), string.end(1)), definitions, problems);
      return length == null ? null : string(text, length, problems);
    }
    Enumeration enumeration = definitions.enumeration(text.value());
    if (enumeration != null) {
      return new ValueType(Type.ENUM, enumeration, 0, null);
    }
    Type type = Type.named(text.value());
    if (type == null) {
      unknown(text, definitions, problems);
    }
    return type == null ? null : new ValueType(type, null, 0, null);
  }

  private static void unknown(SourceText text, Definitions definitions, Diagnostics problems) {
    if (ARRAY_ALIKE.matcher(text.value()).matches()) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_TYPE,
                  text.whole(),
                  "`" + text.value() + "` is not how an array is declared")
              .expected("ARRAY[1..5] OF REAL, in quotes where it stands in braces"));
      return;
    }
    List<String> known = new ArrayList<>();
    Arrays.stream(Type.values()).filter(Type::isPlain).forEach(t -> known.add(t.name()));
    known.add("STRING[n]");
    known.add("ARRAY[m..n] OF type");
    definitions.enumerations().forEach(e -> known.add(e.name()));
    problems.add(
        Diagnostic.error(Code.UNKNOWN_TYPE, text.whole(), "no type named `" + text.value() + "`")
            .expected(String.join(", ", known))
            .help(NearNames.question(text.value(), known)));
  }

  private static ValueType string(SourceText text, int length, Diagnostics problems) {
    if (length >= 1 && length <= StringCells.LONGEST) {
      return new ValueType(Type.STRING, null, length, null);
    }
    problems.add(
        Diagnostic.error(
                Code.OUT_OF_RANGE, text.whole(), "a STRING cannot hold " + length + " characters")
            .expected("from 1 to " + StringCells.LONGEST));
    return null;
  }

  private static ValueType array(
      SourceText text, Matcher parts, Name name, Definitions definitions, Diagnostics problems) {
    Integer least = whole(text.part(parts.start(1), parts.end(1)), definitions, problems);
    Integer greatest = whole(text.part(parts.start(2), parts.end(2)), definitions, problems);
    SourceText of = text.part(parts.start(3), parts.end(3));
    ValueType element = read(of, name, definitions, problems);
    if (least == null || greatest == null || element == null) {
      return null;
    }
    if (element.bounds() != null) {
      problems.add(
          Diagnostic.error(Code.UNKNOWN_TYPE, of.whole(), "an array of arrays")
              .expected("one dimension; an array for each row"));
      return null;
    }
    long count = (long) greatest - least + 1;
    if (count < 1 || count > MOST_ELEMENTS) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_RANGE,
                  text.whole(),
                  count < 1
                      ? "the bounds " + least + ".." + greatest + " hold nothing"
                      : "an array of " + count + " elements")
              .expected("the smaller bound first, and at most " + MOST_ELEMENTS + " elements"));
      return null;
    }
    return new ValueType(
        element.type(),
        element.enumeration(),
        element.length(),
        new ArrayBounds(name.text(), least, greatest, name.position()));
  }

  private static Integer whole(SourceText text, Definitions definitions, Diagnostics problems) {
    Expression value = ExpressionReader.constant(text, Type.DINT, null, definitions, problems);
    return value == null ? null : Integer.valueOf((int) value.constant().longValue());
  }
}
