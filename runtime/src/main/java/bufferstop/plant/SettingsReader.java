package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Tree;
import bufferstop.model.Values;
import bufferstop.spi.Parameter;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;

/** Checks a plant's settings against its schema and fills in defaults. */
final class SettingsReader {
  private static final Pattern NUMBER = Pattern.compile("[+-]?\\d+(\\.\\d+)?([eE][+-]?\\d+)?");
  private static final Pattern WHOLE = Pattern.compile("[+-]?\\d{1,18}");
  private static final Pattern NAME = Pattern.compile("[A-Za-z](_?[A-Za-z0-9])*");

  private final Diagnostics problems;

  SettingsReader(Diagnostics problems) {
    this.problems = problems;
  }

  /** The settings; every problem is reported, and a value in doubt takes its default or zero. */
  CheckedSettings read(Tree tree, List<Parameter> schema, String what) {
    return read(tree, tree.position(), schema, what);
  }

  /** The same; {@code at} is where a missing key is shown. */
  private CheckedSettings read(Tree tree, Position at, List<Parameter> schema, String what) {
    if (!(tree instanceof Tree.Table table)) {
      problems.add(
          Diagnostic.error(Code.WRONG_KIND, at, what + " is no mapping")
              .expected("a mapping with " + names(schema)));
      return new CheckedSettings(
          new Tree.Table(List.of(), false, tree.position()), schema, new TreeMap<>());
    }
    Map<String, Object> values = new TreeMap<>();
    for (Parameter parameter : schema) {
      Tree.Entry entry = entry(table, parameter.name());
      if (entry != null) {
        values.put(parameter.name(), value(parameter, entry));
      } else {
        values.put(parameter.name(), fallback(parameter, table.position()));
      }
    }
    List<String> unknown = reportUnknown(table, schema, what);
    for (Parameter parameter : schema) {
      boolean missing = parameter.fallback() == null && table.get(parameter.name()) == null;
      if (missing && NearNames.of(parameter.name(), unknown).isEmpty()) {
        problems.add(
            Diagnostic.error(Code.MISSING_KEY, at, what + " needs `" + parameter.name() + "`")
                .expected(describe(parameter)));
      }
    }
    return new CheckedSettings(table, schema, values);
  }

  private static Tree.Entry entry(Tree.Table table, String key) {
    return table.entries().stream()
        .filter(e -> e.key().text().equals(key))
        .findFirst()
        .orElse(null);
  }

  /** Reports keys that the schema does not have, and returns them. */
  private List<String> reportUnknown(Tree.Table table, List<Parameter> schema, String what) {
    List<String> unknown = new ArrayList<>();
    List<String> known = schema.stream().map(Parameter::name).toList();
    for (Tree.Entry entry : table.entries()) {
      if (!known.contains(entry.key().text())) {
        unknown.add(entry.key().text());
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_KEY,
                    entry.key().position(),
                    "unknown key `" + entry.key().text() + "` in " + what)
                .expected(names(schema))
                .help(NearNames.question(entry.key().text(), known)));
      }
    }
    return unknown;
  }

  private static String names(List<Parameter> schema) {
    return String.join(", ", schema.stream().map(Parameter::name).toList());
  }

  private Object value(Parameter parameter, Tree.Entry entry) {
    Tree tree = entry.value();
    Position at = entry.key().position();
    return switch (parameter.kind()) {
      case ITEM -> read(tree, at, parameter.fields(), "`" + parameter.name() + "`");
      case LIST -> list(parameter, tree);
      case NAMED -> named(parameter, entry);
      default -> {
        if (tree instanceof Tree.Scalar scalar) {
          yield scalar(parameter, scalar.value(), scalar.value().isEmpty() ? at : tree.position());
        }
        report(parameter, tree.position(), "`" + parameter.name() + "` is no single value");
        yield fallback(parameter, tree.position());
      }
    };
  }

  private List<Settings> list(Parameter parameter, Tree tree) {
    List<Settings> all = new ArrayList<>();
    if (tree instanceof Tree.Items items) {
      for (Tree item : items.items()) {
        all.add(read(item, parameter.fields(), "an item of `" + parameter.name() + "`"));
      }
    } else {
      report(parameter, tree.position(), "`" + parameter.name() + "` is no list");
    }
    return all;
  }

  private Map<String, Settings> named(Parameter parameter, Tree.Entry section) {
    Map<String, Settings> all = new LinkedHashMap<>();
    if (section.value() instanceof Tree.Table table) {
      for (Tree.Entry entry : table.entries()) {
        Position at = entry.key().position();
        if (!NAME.matcher(entry.key().text()).matches()) {
          report(parameter, at, "`" + entry.key().text() + "` cannot be a name");
        }
        String what = "`" + parameter.name() + "." + entry.key().text() + "`";
        all.put(entry.key().text(), read(entry.value(), at, parameter.fields(), what));
      }
    } else {
      report(parameter, section.key().position(), "`" + parameter.name() + "` is no mapping");
    }
    return all;
  }

  private Object scalar(Parameter parameter, String text, Position position) {
    boolean good =
        switch (parameter.kind()) {
          case BOOL -> text.equalsIgnoreCase("TRUE") || text.equalsIgnoreCase("FALSE");
          case INTEGER -> WHOLE.matcher(text).matches() && inRange(parameter, Long.parseLong(text));
          case NUMBER ->
              NUMBER.matcher(text).matches() && inRange(parameter, Double.parseDouble(text));
          case CHOICE -> parameter.choices().contains(text);
          default -> true;
        };
    if (!good) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_LITERAL,
                  position,
                  "`"
                      + parameter.name()
                      + (text.isEmpty() ? "` holds nothing" : "` cannot be `" + text + "`"))
              .expected(describe(parameter))
              .help(NearNames.question(text, parameter.choices())));
      return fallback(parameter, position);
    }
    return switch (parameter.kind()) {
      case BOOL -> text.equalsIgnoreCase("TRUE");
      case INTEGER -> Long.parseLong(text);
      case NUMBER -> Double.parseDouble(text);
      default -> text;
    };
  }

  private static boolean inRange(Parameter parameter, double value) {
    return value >= parameter.min() && value <= parameter.max();
  }

  private void report(Parameter parameter, Position position, String message) {
    problems.add(
        Diagnostic.error(Code.OUT_OF_RANGE, position, message).expected(describe(parameter)));
  }

  /** The default, or a harmless stand-in when the file is wrong anyway. */
  private Object fallback(Parameter parameter, Position position) {
    String text = parameter.fallback();
    return switch (parameter.kind()) {
      case LIST -> List.of();
      case NAMED -> Map.of();
      case ITEM -> item(parameter, position);
      case BOOL -> "TRUE".equalsIgnoreCase(text);
      case INTEGER -> text == null ? (long) parameter.min() : Long.parseLong(text);
      case NUMBER -> text == null ? parameter.min() : Double.parseDouble(text);
      case CHOICE -> text == null ? parameter.choices().get(0) : text;
      case TEXT -> text == null ? "" : text;
    };
  }

  private CheckedSettings item(Parameter parameter, Position position) {
    Tree.Table empty = new Tree.Table(List.of(), false, position);
    Map<String, Object> values = new TreeMap<>();
    for (Parameter field : parameter.fields()) {
      values.put(field.name(), fallback(field, position));
    }
    return new CheckedSettings(empty, parameter.fields(), values);
  }

  private static String describe(Parameter parameter) {
    String unit = parameter.unit().isEmpty() ? "" : " " + parameter.unit();
    return switch (parameter.kind()) {
      case BOOL -> "TRUE or FALSE";
      case INTEGER ->
          "a whole number from " + (long) parameter.min() + " to " + (long) parameter.max();
      case NUMBER ->
          "a number from " + bound(parameter.min()) + " to " + bound(parameter.max()) + unit;
      case CHOICE -> String.join(", ", parameter.choices());
      case TEXT -> "text";
      case LIST -> "a list of mappings with " + names(parameter.fields());
      case NAMED -> "names, each with " + names(parameter.fields());
      case ITEM -> "a mapping with " + names(parameter.fields());
    };
  }

  private static String bound(double value) {
    return Values.number(value);
  }
}
