package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Reads the points of a controller: inputs, outputs, operator points, internals. */
final class PointLoader {
  private static final List<String> TYPES = Stream.of(Type.values()).map(Enum::name).toList();
  private static final long[] NO_RANGE = {};

  private static final Map<String, String> OWN_KEYS =
      Map.of(
          "filter", "inputs",
          "safe", "outputs",
          "terminal", "inputs and outputs",
          "supply", "inputs and outputs",
          "node", "inputs and outputs",
          "initial", "operator and internal points",
          "range", "operator points",
          "momentary", "operator points",
          "hold_to_run", "operator points");

  private final Sections sections;
  private final Diagnostics problems;

  PointLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** The points of a controller, section by section. */
  List<Point> read(TableReader controller) {
    List<Point> points = new ArrayList<>();
    points.addAll(section(controller, "inputs", Kind.INPUT, "an input"));
    points.addAll(section(controller, "outputs", Kind.OUTPUT, "an output"));
    points.addAll(section(controller, "operator", Kind.OPERATOR, "an operator point"));
    points.addAll(section(controller, "internal", Kind.INTERNAL, "an internal point"));
    return List.copyOf(points);
  }

  private List<Point> section(TableReader controller, String key, Kind kind, String what) {
    List<Point> points = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, key, "points by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, what, problems);
      Point point = reader == null ? null : point(entry.key(), kind, reader);
      if (point != null && named) {
        points.add(point);
      } else {
        problems.doubt(entry.key().text());
      }
    }
    return points;
  }

  /** Null, after a diagnostic, when its type is not known. */
  private Point point(Name name, Kind kind, TableReader reader) {
    OWN_KEYS.forEach(reader::belongs);
    Type type = type(reader);
    boolean field = kind == Kind.INPUT || kind == Kind.OUTPUT;
    boolean operator = kind == Kind.OPERATOR;
    long[] range = operator ? range(reader, type) : NO_RANGE;
    boolean momentary = operator && reader.bool("momentary", false);
    long hold = operator ? reader.time("hold_to_run", 0, 1000) : 0;
    Long initial = field ? null : value(reader, "initial", type);
    Point point =
        new Point(
            kind,
            name.text(),
            type == null ? Type.BOOL : type,
            reader.words("text"),
            field ? reader.words("terminal") : "",
            field ? reader.name("supply") : null,
            field ? reader.name("node") : null,
            kind == Kind.INPUT ? reader.time("filter", 0, 0) : 0,
            initial == null ? 0 : initial,
            kind == Kind.OUTPUT ? orZero(value(reader, "safe", type)) : 0,
            range.length == 2 ? range[0] : null,
            range.length == 2 ? range[1] : null,
            momentary,
            hold,
            name.position());
    reader.finish();
    if (type == null) {
      return null;
    }
    checkFallingBack(point, reader);
    if (reader.tree("initial") == null || initial != null) {
      checkInitial(point, reader);
    }
    return point;
  }

  private Type type(TableReader reader) {
    SourceText text = reader.requiredText("type");
    Type type = text == null ? null : Type.named(text.value());
    if (text != null && type == null) {
      problems.add(
          Diagnostic.error(text.whole(), "no type named `" + text.value() + "`")
              .expected(String.join(", ", TYPES))
              .help(NearNames.question(text.value(), TYPES)));
    }
    return type;
  }

  private Long value(TableReader reader, String key, Type type) {
    reader.tree(key);
    return type == null ? null : reader.literal(key, type);
  }

  private static long orZero(Long value) {
    return value == null ? 0 : value;
  }

  private long[] range(TableReader reader, Type type) {
    Tree tree = reader.tree("range");
    if (tree == null || type == null) {
      return NO_RANGE;
    }
    if (!type.isNumber() && type != Type.TIME) {
      problems.add(
          Diagnostic.error(tree.position(), "a " + type + " has no `range`")
              .expected("`range` on numbers and times only"));
      return NO_RANGE;
    }
    if (!(tree instanceof Tree.Items items)
        || items.items().size() != 2
        || !(items.items().get(0) instanceof Tree.Scalar low)
        || !(items.items().get(1) instanceof Tree.Scalar high)) {
      problems.add(
          Diagnostic.error(tree.position(), "`range` does not give two bounds")
              .expected("[least, greatest]"));
      return NO_RANGE;
    }
    Long least = ExpressionReader.literal(low.text(), type, problems);
    Long greatest = ExpressionReader.literal(high.text(), type, problems);
    if (least == null || greatest == null) {
      return NO_RANGE;
    }
    if (type.compare(least, greatest) > 0) {
      problems.add(
          Diagnostic.error(
                  low.position(),
                  "the least value, "
                      + Values.print(type, least)
                      + ", is above the greatest, "
                      + Values.print(type, greatest))
              .expected("[least, greatest]")
              .help("exchange the two"));
      return NO_RANGE;
    }
    return new long[] {least, greatest};
  }

  private void checkFallingBack(Point point, TableReader reader) {
    boolean fallsBack = point.momentary() || point.holdMicros() > 0;
    if (fallsBack && point.type() != Type.BOOL) {
      String key = point.momentary() ? "momentary" : "hold_to_run";
      problems.add(
          Diagnostic.error(
                  reader.entry(key).key().position(),
                  "`" + key + "` on `" + point.name() + "`, which is " + point.type())
              .expected("`" + key + "` on a BOOL, which falls back to FALSE"));
    } else if (point.momentary() && point.holdMicros() > 0) {
      problems.add(
          Diagnostic.error(
                  reader.entry("hold_to_run").key().position(),
                  "`" + point.name() + "` is both momentary and hold_to_run")
              .note(reader.entry("momentary").key().position(), "momentary here")
              .help("keep one of them"));
    }
  }

  private void checkInitial(Point point, TableReader reader) {
    if (point.least() == null || point.admits(point.initial())) {
      return;
    }
    Tree initial = reader.tree("initial");
    String start = Values.print(point.type(), point.initial());
    problems.add(
        Diagnostic.error(
                initial == null ? reader.tree("range").position() : initial.position(),
                "`"
                    + point.name()
                    + "` starts at "
                    + start
                    + (initial == null ? " without `initial`" : "")
                    + ", outside its range")
            .expected(
                "from "
                    + Values.print(point.type(), point.least())
                    + " to "
                    + Values.print(point.type(), point.greatest()))
            .help("give `initial` a value inside the range"));
  }
}
