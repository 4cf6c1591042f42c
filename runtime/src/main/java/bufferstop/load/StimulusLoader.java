package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Stimulus;
import bufferstop.model.Scenario.Trigger;
import bufferstop.model.SourceText;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Reads when something is done to the rig, and what. */
final class StimulusLoader {
  private static final List<String> TIMES = List.of("at", "when", "follows");
  private static final long MOST_TIMES = 1_000_000;

  private final Diagnostics problems;
  private final DeedLoader deeds;
  private final Set<String> ids = new TreeSet<>();

  StimulusLoader(Diagnostics problems) {
    this.problems = problems;
    deeds = new DeedLoader(problems);
  }

  Stimulus read(TableReader reader) {
    List<String> given = reader.given(DeedLoader.DEEDS);
    List<String> times = reader.given(TIMES);
    Trigger trigger = times.size() == 1 ? trigger(times.get(0), reader) : null;
    Deed deed = given.size() == 1 ? deeds.deed(given.get(0), reader) : null;
    Name id = reader.name("id");
    reader.belongs("after", "`when: condition` and `follows: id`");
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  reader.at(),
                  given.isEmpty()
                      ? "this does nothing"
                      : "this does several things: " + String.join(", ", given))
              .expected("exactly one of " + String.join(", ", DeedLoader.DEEDS)));
    }
    if (times.size() > 1 || times.isEmpty() && known) {
      problems.add(
          Diagnostic.error(Code.BAD_STIMULUS, reader.at(), "when this is done is not clear")
              .expected(
                  "one of `at: T#...`, `when: condition` and `follows: id`, the last two with"
                      + " `after: T#...` if wanted"));
    }
    if (id != null && !ids.add(id.text())) {
      problems.add(
          Diagnostic.error(
                  Code.DECLARED_TWICE, id.position(), "the id `" + id.text() + "` is given twice")
              .help("give one of them another id"));
    }
    return trigger == null || deed == null
        ? null
        : new Stimulus(id == null ? "" : id.text(), trigger, deed, reader.position());
  }

  private Trigger trigger(String time, TableReader reader) {
    long every = reader.time("every", 0, 1);
    long times = reader.whole("times", every > 0 ? 0 : 1, 1, MOST_TIMES);
    if (time.equals("at")) {
      long at = reader.time("at", 0, 0);
      if (times > 1 && every == 0) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_TIMES,
                    reader.tree("times").position(),
                    "all of these times are the same")
                .expected("`every: T#...` from one to the next"));
      }
      return new Trigger(null, "", at, times, every);
    }
    long after = reader.time("after", 0, 0);
    if (time.equals("when")) {
      SourceText when = reader.text("when");
      return when == null ? null : new Trigger(when, "", after, times, every);
    }
    Name follows = reader.name("follows");
    if (follows != null && !ids.contains(follows.text())) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  follows.position(),
                  "no stimulus above has the id `" + follows.text() + "`")
              .expected("the `id` of one written before this one")
              .help(NearNames.question(follows.text(), ids)));
      return null;
    }
    return follows == null ? null : new Trigger(null, follows.text(), after, times, every);
  }
}
