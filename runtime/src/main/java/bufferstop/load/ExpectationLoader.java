package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Scenario.Always;
import bufferstop.model.Scenario.Eventually;
import bufferstop.model.Scenario.Expectation;
import bufferstop.model.Scenario.Never;
import bufferstop.model.Scenario.Response;
import bufferstop.model.SourceText;
import bufferstop.model.Values;
import java.util.List;

/** Reads what a scenario expects. */
final class ExpectationLoader {
  private static final List<String> FORMS = List.of("always", "never", "eventually", "when");

  private final Diagnostics problems;

  ExpectationLoader(Diagnostics problems) {
    this.problems = problems;
  }

  Expectation read(TableReader reader) {
    List<String> given = FORMS.stream().filter(f -> reader.tree(f) != null).toList();
    String unit = reader.words("unit");
    if (given.size() != 1) {
      problems.add(
          Diagnostic.error(reader.position(), "this expects " + given.size() + " things")
              .expected("exactly one of " + String.join(", ", FORMS)));
      return null;
    }
    SourceText first = reader.text(given.get(0));
    if (first == null) {
      return null;
    }
    return switch (given.get(0)) {
      case "always" -> new Always(first, "always " + first.value(), unit, reader.position());
      case "never" -> new Never(first, "never " + first.value(), unit, reader.position());
      case "eventually" -> {
        long within = reader.time("within", 0, 0);
        String limit = within == 0 ? "" : " within " + Values.time(within);
        yield new Eventually(
            first, within, "eventually " + first.value() + limit, unit, reader.position());
      }
      default -> response(reader, first, unit);
    };
  }

  private Expectation response(TableReader reader, SourceText when, String unit) {
    SourceText that = reader.requiredText("that", reader.position());
    reader.required("within", reader.position());
    long within = reader.time("within", 0, 0);
    if (that == null) {
      return null;
    }
    String text =
        "when " + when.value() + " within " + Values.time(within) + " that " + that.value();
    return new Response(when, within, that, text, unit, reader.position());
  }
}
