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
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Reads the points of a controller: inputs, outputs, operator points, internals. */
final class PointLoader {
  private static final List<String> TYPES = Stream.of(Type.values()).map(Enum::name).toList();
  private static final long[] NO_RANGE = {};

  private final Diagnostics problems;

  PointLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /** Points of one section; {@code what} describes one of them: {@code an input}. */
  List<Point> read(Tree section, Kind kind, String what) {
    List<Point> points = new ArrayList<>();
    TableReader table = section == null ? null : TableReader.open(section, what + "s", problems);
    if (table != null) {
      for (Tree.Entry entry : table.entries()) {
        TableReader reader = TableReader.open(entry.value(), what, problems);
        if (reader != null && Identifiers.check(entry.key(), problems)) {
          points.add(point(entry.key(), kind, reader));
        }
      }
    }
    return points;
  }

  private Point point(Name name, Kind kind, TableReader reader) {
    Type type = type(reader, name);
    boolean field = kind == Kind.INPUT || kind == Kind.OUTPUT;
    boolean operator = kind == Kind.OPERATOR;
    long[] range = operator ? range(reader, type) : NO_RANGE;
    boolean momentary = operator && reader.bool("momentary", false);
    long hold = operator ? reader.time("hold_to_run", 0, 1000) : 0;
    boolean ranged = range.length == 2;
    Point point =
        new Point(
            kind,
            name.text(),
            type,
            reader.words("text"),
            field ? reader.words("terminal") : "",
            field ? reader.name("supply") : null,
            kind == Kind.INPUT ? reader.time("filter", 0, 0) : 0,
            kind == Kind.INPUT || kind == Kind.OUTPUT ? 0 : value(reader, "initial", type),
            kind == Kind.OUTPUT ? value(reader, "safe", type) : 0,
            ranged ? range[0] : null,
            ranged ? range[1] : null,
            momentary,
            hold,
            name.position());
    reader.finish();
    checkOperator(point, reader);
    return point;
  }

  private Type type(TableReader reader, Name name) {
    SourceText text = reader.requiredText("type", name.position());
    if (text == null) {
      return Type.BOOL;
    }
    Type type = Type.named(text.value());
    if (type == null) {
      problems.add(
          Diagnostic.error(text.whole(), "no type named `" + text.value() + "`")
              .expected(String.join(", ", TYPES))
              .help(NearNames.question(text.value(), TYPES)));
      return Type.BOOL;
    }
    return type;
  }

  private long value(TableReader reader, String key, Type type) {
    Long literal = reader.literal(key, type);
    return literal == null ? 0 : literal;
  }

  private long[] range(TableReader reader, Type type) {
    Tree tree = reader.tree("range");
    if (tree == null) {
      return NO_RANGE;
    }
    if (!(tree instanceof Tree.Items items)
        || items.items().size() != 2
        || !(items.items().get(0) instanceof Tree.Scalar low)
        || !(items.items().get(1) instanceof Tree.Scalar high)
        || type == Type.BOOL) {
      problems.add(
          Diagnostic.error(tree.position(), "`range` does not give two bounds of a number or time")
              .expected("[least, greatest]"));
      return NO_RANGE;
    }
    Long least = ExpressionReader.literal(low.text(), type, problems);
    Long greatest = ExpressionReader.literal(high.text(), type, problems);
    return least == null || greatest == null ? NO_RANGE : new long[] {least, greatest};
  }

  private void checkOperator(Point point, TableReader reader) {
    boolean fallsBack = point.momentary() || point.holdMicros() > 0;
    if (fallsBack && point.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  point.position(), "`" + point.name() + "` falls back to FALSE but is no BOOL")
              .help("leave out `momentary` and `hold_to_run`, or make it a BOOL"));
    }
    if (point.momentary() && point.holdMicros() > 0) {
      problems.add(
          Diagnostic.error(
                  point.position(), "`" + point.name() + "` is both momentary and hold_to_run")
              .help("keep one of them"));
    }
    if (point.least() != null && !point.admits(point.initial())) {
      problems.add(
          Diagnostic.error(
                  reader.tree("range").position(),
                  "`" + point.name() + "` starts outside its own range")
              .help("give `initial` a value inside the range"));
    }
  }
}
