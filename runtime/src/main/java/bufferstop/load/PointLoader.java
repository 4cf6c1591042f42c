package bufferstop.load;

import bufferstop.model.ArrayBounds;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Reads the points of a controller: inputs, outputs, operator points, internals. */
final class PointLoader {
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
          "hold_to_run", "operator points",
          "retain", "operator and internal points, blocks, trips and alarms");

  private final Sections sections;
  private final Diagnostics problems;
  private final List<ArrayBounds> arrays = new ArrayList<>();

  PointLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** The points of a controller, section by section. */
  List<Point> read(TableReader controller) {
    List<Point> points = new ArrayList<>();
    points.addAll(section(controller, "inputs", Kind.INPUT, ControllerForms.INPUT));
    points.addAll(section(controller, "outputs", Kind.OUTPUT, ControllerForms.OUTPUT));
    points.addAll(section(controller, "operator", Kind.OPERATOR, ControllerForms.OPERATOR));
    points.addAll(section(controller, "internal", Kind.INTERNAL, ControllerForms.INTERNAL));
    return List.copyOf(points);
  }

  /** The arrays among them. */
  List<ArrayBounds> arrays() {
    return arrays;
  }

  private List<Point> section(TableReader controller, String key, Kind kind, Form form) {
    List<Point> points = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, key, "points by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader =
          TableReader.knowing(sections.definitions(), TableReader.open(entry, form, problems));
      List<Point> declared = reader == null ? List.of() : points(entry.key(), kind, reader);
      if (declared.isEmpty() || !named) {
        problems.doubt(entry.key().text());
      } else {
        points.addAll(declared);
      }
    }
    return points;
  }

  /** A point, or one for each element of an array; none, after a diagnostic, without a type. */
  private List<Point> points(Name name, Kind kind, TableReader reader) {
    OWN_KEYS.forEach(reader::belongs);
    SourceText written = reader.requiredText("type");
    ValueType type =
        written == null ? null : DeclaredType.read(written, name, sections.definitions(), problems);
    boolean field = kind == Kind.INPUT || kind == Kind.OUTPUT;
    boolean fits = type == null || !field || fitsField(type, written);
    InitialValues initial = new InitialValues(reader, type, problems);
    if (!field) {
      initial.read(name);
    }
    Point first = point(name, kind, reader, type, initial);
    reader.finish();
    if (type == null || !fits) {
      return List.of();
    }
    checkFallingBack(first, reader);
    List<Point> all = new ArrayList<>(List.of(first));
    if (type.bounds() != null) {
      arrays.add(type.bounds());
      for (int i = 1; i < type.bounds().count(); i++) {
        all.add(
            first.element(
                type.bounds().element(type.bounds().least() + (long) i),
                initial.bits(i),
                initial.text(i)));
      }
    }
    if (initial.isGood()) {
      all.stream()
          .filter(p -> p.least() != null && !p.admits(p.initial()))
          .findFirst()
          .ifPresent(p -> reportInitial(p, reader));
    }
    return all;
  }

  private Point point(
      Name name, Kind kind, TableReader reader, ValueType declared, InitialValues initial) {
    Type type = declared == null ? null : declared.type();
    boolean field = kind == Kind.INPUT || kind == Kind.OUTPUT;
    boolean operator = kind == Kind.OPERATOR;
    long[] range = operator ? range(reader, type) : NO_RANGE;
    boolean momentary = operator && reader.bool("momentary", false);
    long hold = operator ? reader.time("hold_to_run", 0, 1000) : 0;
    boolean array = declared != null && declared.bounds() != null;
    return new Point(
        kind,
        array ? declared.bounds().element(declared.bounds().least()) : name.text(),
        type == null ? Type.BOOL : type,
        reader.words("text"),
        field ? reader.words("terminal") : "",
        field ? reader.name("supply") : null,
        field ? reader.name("node") : null,
        kind == Kind.INPUT ? reader.time("filter", 0, 0) : 0,
        initial.bits(0),
        kind == Kind.OUTPUT ? safe(reader, declared) : 0,
        range.length == 2 ? range[0] : null,
        range.length == 2 ? range[1] : null,
        momentary,
        hold,
        !field && reader.bool("retain", false),
        name.position(),
        declared == null ? null : declared.enumeration(),
        declared == null ? 0 : declared.length(),
        type == Type.STRING ? initial.text(0) : null);
  }

  private boolean fitsField(ValueType type, SourceText written) {
    boolean fits = type.bounds() == null && type.type() != Type.STRING;
    if (!fits) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_TYPE,
                  written.whole(),
                  type.bounds() == null
                      ? "no wire carries a STRING"
                      : "inputs and outputs are no arrays")
              .expected(
                  "one point for each terminal; STRING and ARRAY are for operator and"
                      + " internal points"));
    }
    return fits;
  }

  private static long safe(TableReader reader, ValueType type) {
    SourceText text = reader.text("safe");
    boolean readable = text != null && type != null && type.type() != Type.STRING;
    Long value = readable ? reader.value(text, type.type(), type.enumeration()) : null;
    return value == null ? 0 : value;
  }

  private long[] range(TableReader reader, Type type) {
    Tree tree = reader.tree("range");
    if (tree == null || type == null) {
      return NO_RANGE;
    }
    if (!type.isNumber() && type != Type.TIME) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT, tree.position(), "a " + typeWord(type) + " has no `range`")
              .expected("`range` on numbers and times only"));
      return NO_RANGE;
    }
    if (!(tree instanceof Tree.Items items)
        || items.items().size() != 2
        || !(items.items().get(0) instanceof Tree.Scalar low)
        || !(items.items().get(1) instanceof Tree.Scalar high)) {
      problems.add(
          Diagnostic.error(Code.BAD_RANGE, tree.position(), "`range` does not give two bounds")
              .expected("[least, greatest]"));
      return NO_RANGE;
    }
    Long least = reader.value(low.text(), type, null);
    Long greatest = reader.value(high.text(), type, null);
    if (least == null || greatest == null) {
      return NO_RANGE;
    }
    if (type.compare(least, greatest) > 0) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_RANGE,
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
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry(key).key().position(),
                  "`" + key + "` on `" + point.name() + "`, which is " + point.type())
              .expected("`" + key + "` on a BOOL, which falls back to FALSE"));
    } else if (point.momentary() && point.holdMicros() > 0) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry("hold_to_run").key().position(),
                  "`" + point.name() + "` is both momentary and hold_to_run")
              .note(reader.entry("momentary").key().position(), "momentary here")
              .help("keep one of them"));
    } else if (fallsBack && point.retain()) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry("retain").key().position(),
                  "`" + point.name() + "` falls back by itself and cannot be retained")
              .help("take `retain` away, or retain what the point sets"));
    }
  }

  private static String typeWord(Type type) {
    return type == Type.ENUM ? "value of an enumeration" : type.name();
  }

  private void reportInitial(Point point, TableReader reader) {
    Tree initial = reader.tree("initial");
    String start = Values.print(point.type(), point.initial());
    problems.add(
        Diagnostic.error(
                Code.OUT_OF_RANGE,
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
