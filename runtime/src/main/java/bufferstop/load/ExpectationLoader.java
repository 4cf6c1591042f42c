package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.AtEnd;
import bufferstop.model.Scenario.Count;
import bufferstop.model.Scenario.Eventually;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Golden;
import bufferstop.model.Scenario.Interval;
import bufferstop.model.Scenario.Never;
import bufferstop.model.Scenario.Persistence;
import bufferstop.model.Scenario.Precedence;
import bufferstop.model.Scenario.Response;
import bufferstop.model.Scenario.Stable;
import bufferstop.model.Scenario.StoredRun;
import bufferstop.model.Scenario.Until;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.model.Values;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;

/** Reads what a scenario expects. */
final class ExpectationLoader {
  private static final List<String> FORMS =
      List.of("always", "never", "eventually", "when", "stable", "count", "at_end", "golden");

  private final StoredRunLoader runs;
  private final Diagnostics problems;

  ExpectationLoader(StoredRunLoader runs, Diagnostics problems) {
    this.runs = runs;
    this.problems = problems;
  }

  Expectation read(TableReader reader) {
    List<String> given = reader.given(FORMS);
    String unit = reader.words("unit");
    Expectation expectation =
        given.size() == 1 ? expectation(given.get(0), reader, unit) : nothing(reader);
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  reader.at(),
                  given.isEmpty()
                      ? "this expects nothing"
                      : "this expects several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", FORMS)));
    }
    return expectation;
  }

  private static Expectation nothing(TableReader reader) {
    List.of(
            "within",
            "that",
            "after",
            "for",
            "until",
            "before",
            "between",
            "from",
            "to",
            "tolerance",
            "shift")
        .forEach(reader::tree);
    return null;
  }

  private Expectation expectation(String form, TableReader reader, String unit) {
    SourceText first = reader.text(form);
    reader.belongs("within", "eventually, when and `always: … until:`");
    reader.belongs("that", "when");
    reader.belongs("after", "when");
    reader.belongs("for", "when and stable");
    reader.belongs("until", "always");
    reader.belongs("before", "never");
    reader.belongs("between", "count");
    reader.belongs("from", "all forms but stable and at_end");
    reader.belongs("to", "always, never, when, count and golden");
    reader.belongs("tolerance", "golden");
    reader.belongs("shift", "golden");
    return switch (form) {
      case "always" -> always(first, reader, unit);
      case "never" -> never(first, reader, unit);
      case "eventually" -> eventually(first, reader, unit);
      case "stable" -> stable(first, reader, unit);
      case "count" -> count(first, reader, unit);
      case "golden" -> golden(reader, unit);
      case "at_end" ->
          first == null
              ? null
              : new AtEnd(first, "at_end " + first.value(), unit, reader.position());
      default -> when(first, reader, unit);
    };
  }

  private Expectation always(SourceText first, TableReader reader, String unit) {
    if (reader.has("until")) {
      SourceText until = reader.text("until");
      Interval during = interval(reader, "within");
      if (first == null || until == null) {
        return null;
      }
      String text = "always " + first.value() + " until " + until.value() + said(during, "within");
      return new Until(first, until, during, text, unit, reader.position());
    }
    Interval during = interval(reader, "to");
    String text = first == null ? "" : "always " + first.value() + said(during, "to");
    return first == null ? null : new Always(first, during, text, unit, reader.position());
  }

  private Expectation never(SourceText first, TableReader reader, String unit) {
    if (reader.has("before")) {
      SourceText before = reader.text("before");
      return first == null || before == null
          ? null
          : new Precedence(
              first,
              before,
              "never " + first.value() + " before " + before.value(),
              unit,
              reader.position());
    }
    Interval during = interval(reader, "to");
    String text = first == null ? "" : "never " + first.value() + said(during, "to");
    return first == null ? null : new Never(first, during, text, unit, reader.position());
  }

  private Expectation eventually(SourceText first, TableReader reader, String unit) {
    Interval during = interval(reader, "within");
    String text = first == null ? "" : "eventually " + first.value() + said(during, "within");
    return first == null ? null : new Eventually(first, during, text, unit, reader.position());
  }

  private static Expectation stable(SourceText first, TableReader reader, String unit) {
    reader.required("for");
    long lasting = reader.time("for", 1, 1);
    return first == null
        ? null
        : new Stable(
            first,
            lasting,
            "stable " + first.value() + " for " + Values.time(lasting),
            unit,
            reader.position());
  }

  private Expectation count(SourceText first, TableReader reader, String unit) {
    Interval during = interval(reader, "to");
    reader.required("between");
    Tree.Entry between = reader.entry("between");
    long[] bounds = between == null ? null : bounds(between);
    if (first == null || bounds == null) {
      return null;
    }
    String text =
        "count "
            + first.value()
            + " between "
            + bounds[0]
            + " and "
            + bounds[1]
            + said(during, "to");
    return new Count(first, bounds[0], bounds[1], during, text, unit, reader.position());
  }

  private Expectation golden(TableReader reader, String unit) {
    Interval during = interval(reader, "to");
    long shift = reader.time("shift", 0, 0);
    Name file = reader.name("golden");
    Tree.Entry given = reader.entry("tolerance");
    TableReader table = given == null ? null : TableReader.open(given, "tolerances", problems);
    List<Assignment> tolerances = new ArrayList<>();
    for (Tree.Entry entry : table == null ? List.<Tree.Entry>of() : table.entries()) {
      SourceText value = TableReader.textOf(entry, problems);
      if (value != null) {
        tolerances.add(new Assignment(entry.key(), value));
      }
    }
    StoredRun run = file == null ? null : runs.read(file);
    if (run == null) {
      return null;
    }
    String text = "golden " + file.text() + said(during, "to");
    return new Golden(run, List.copyOf(tolerances), shift, during, text, unit, reader.position());
  }

  private long[] bounds(Tree.Entry entry) {
    long[] bounds = new long[2];
    boolean good = entry.value() instanceof Tree.Items items && items.items().size() == 2;
    for (int i = 0; good && i < 2; i++) {
      Tree item = ((Tree.Items) entry.value()).items().get(i);
      Long bound =
          item instanceof Tree.Scalar scalar
              ? ExpressionReader.literal(scalar.text(), Type.LINT, new Diagnostics())
              : null;
      good = bound != null;
      bounds[i] = good ? bound : 0;
    }
    if (!good || bounds[0] < 0 || bounds[1] < bounds[0]) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_RANGE,
                  TableReader.place(entry),
                  "these are no bounds of a number of times")
              .expected("the least and the greatest number, not below 0: [1, 3]"));
      return null;
    }
    return bounds;
  }

  private Expectation when(SourceText first, TableReader reader, String unit) {
    Interval during = interval(reader, "to");
    long after = reader.time("after", 0, 0);
    boolean lasts = reader.has("for");
    String limit = lasts ? "for" : "within";
    if (!lasts) {
      reader.required("within");
    }
    long until = reader.time(limit, 0, 0);
    SourceText that = reader.requiredText("that");
    if (until < after && reader.has(limit)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree(limit).position(),
                  "`" + limit + "` ends before `after` begins, at " + Values.time(after))
              .expected("a time of at least `after`; both count from the condition"));
      return null;
    }
    if (first == null || that == null) {
      return null;
    }
    String text =
        "when "
            + first.value()
            + (after == 0 ? "" : " after " + Values.time(after))
            + (" " + limit + " ")
            + Values.time(until)
            + " that "
            + that.value()
            + said(during, "to");
    return lasts
        ? new Persistence(first, after, until, that, during, text, unit, reader.position())
        : new Response(first, after, until, that, during, text, unit, reader.position());
  }

  private Interval interval(TableReader reader, String end) {
    Interval during = new Interval(reader.time("from", 0, 0), reader.time(end, 0, 1));
    if (during.toMicros() > 0 && during.toMicros() < during.fromMicros()) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree(end).position(),
                  "the interval ends before it begins, at " + Values.time(during.fromMicros()))
              .expected("`" + end + "` not before `from`"));
    }
    return during;
  }

  private static String said(Interval during, String end) {
    String from = during.fromMicros() == 0 ? "" : " from " + Values.time(during.fromMicros());
    return from + (during.toMicros() == 0 ? "" : " " + end + " " + Values.time(during.toMicros()));
  }
}
