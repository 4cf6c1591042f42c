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
    List<String> given = reader.given(FORMS);
    String unit = reader.words("unit");
    Expectation expectation =
        given.size() == 1 ? expectation(given.get(0), reader, unit) : nothing(reader);
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  reader.at(),
                  given.isEmpty()
                      ? "this expects nothing"
                      : "this expects several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", FORMS)));
    }
    return expectation;
  }

  private static Expectation nothing(TableReader reader) {
    List.of("within", "that").forEach(reader::tree);
    return null;
  }

  private static Expectation expectation(String form, TableReader reader, String unit) {
    SourceText first = reader.text(form);
    reader.belongs("within", "eventually and when");
    reader.belongs("that", "when");
    long within =
        switch (form) {
          case "eventually" -> reader.time("within", 0, 1); // 0 means the end of the run
          case "when" -> reader.required("within") == null ? 0 : reader.time("within", 0, 0);
          default -> 0;
        };
    SourceText that = form.equals("when") ? reader.requiredText("that") : null;
    if (first == null || form.equals("when") && that == null) {
      return null;
    }
    String text = form + " " + first.value();
    String limit = " within " + Values.time(within);
    return switch (form) {
      case "always" -> new Always(first, text, unit, reader.position());
      case "never" -> new Never(first, text, unit, reader.position());
      case "eventually" ->
          new Eventually(first, within, within == 0 ? text : text + limit, unit, reader.position());
      default ->
          new Response(
              first, within, that, text + limit + " that " + that.value(), unit, reader.position());
    };
  }
}
