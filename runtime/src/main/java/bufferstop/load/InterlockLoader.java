package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads permissives, interlocks and trips. */
final class InterlockLoader {
  private static final List<String> KINDS = List.of("permissive", "interlock", "trip");

  private final Sections sections;
  private final Diagnostics problems;

  InterlockLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  List<Interlock> read(TableReader controller) {
    List<Interlock> interlocks = new ArrayList<>();
    for (Tree.Entry entry : sections.names(controller, "interlocks", "interlocks by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, ControllerForms.INTERLOCK, problems);
      Interlock interlock = reader == null ? null : interlock(entry.key(), reader);
      if (interlock != null && named) {
        interlocks.add(interlock);
      } else {
        problems.doubt(entry.key().text());
      }
    }
    return List.copyOf(interlocks);
  }

  private Interlock interlock(Name name, TableReader reader) {
    List<String> given = reader.given(KINDS);
    String kind = given.size() == 1 ? given.get(0) : "";
    boolean trip = kind.equals("trip");
    List<Name> makesSafe = reader.names("makes_safe");
    Name group = reader.name("group");
    String text = reader.words("text");
    SourceText reset = trip ? reader.requiredText("reset") : null;
    boolean retain = trip && reader.bool("retain", false);
    if (!trip) {
      reader.belongs("reset", "trips; a permissive or interlock does not latch");
      reader.belongs("retain", "trips; a permissive or interlock does not latch");
    }
    if (!reader.finish() && given.isEmpty()) {
      return null;
    }
    if (given.size() != 1) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  name.position(),
                  "`"
                      + name.text()
                      + "` is "
                      + (given.isEmpty() ? "none" : "several")
                      + " of permissive, interlock and trip")
              .expected("exactly one of the keys permissive, interlock, trip"));
      return null;
    }
    return new Interlock(
        name.text(),
        InterlockKind.valueOf(kind.toUpperCase(Locale.ROOT)),
        causes(name, reader.entry(kind)),
        reset,
        makesSafe,
        group == null || !Identifiers.check(group, problems) ? null : group,
        retain,
        text,
        name.position());
  }

  private List<Cause> causes(Name interlock, Tree.Entry given) {
    List<Cause> causes = new ArrayList<>();
    if (given.value() instanceof Tree.Table table && !table.entries().isEmpty()) {
      for (Tree.Entry entry : table.entries()) {
        boolean named = Identifiers.check(entry.key(), problems) && isFree(entry.key());
        Cause cause = new CauseLoader(problems).read(entry);
        if (named && cause != null) {
          causes.add(cause);
        } else {
          problems.doubt(interlock.text() + ".first." + entry.key().text());
          problems.doubt(interlock.text() + "." + entry.key().text());
        }
      }
    } else if (given.value() instanceof Tree.Table) {
      problems.add(
          Diagnostic.error(
                  Code.NOTHING_GIVEN,
                  given.value().position(),
                  "`" + interlock.text() + "` has no causes")
              .expected("a BOOL expression, or several by name"));
    } else {
      SourceText condition = Conditions.of(given, problems);
      if (condition != null) {
        causes.add(Cause.plain("cause", condition, condition.whole()));
      }
    }
    return List.copyOf(causes);
  }

  /** What is said of a cause stands beside {@code .first}. */
  private boolean isFree(Name cause) {
    boolean free = !cause.text().equalsIgnoreCase("first");
    if (!free) {
      problems.add(
          Diagnostic.error(Code.BAD_NAME, cause.position(), "a cause cannot be called `first`")
              .help("the first-out is kept under that name; choose another"));
    }
    return free;
  }
}
