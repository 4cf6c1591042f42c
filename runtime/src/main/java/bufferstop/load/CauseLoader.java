package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Controller.Bypass;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Channel;
import bufferstop.model.Controller.Vote;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Reads one named cause: a condition, or a mapping with a delay, a vote, a bypass. */
final class CauseLoader {
  private static final int MOST_CHANNELS = 16;
  private static final List<String> OF_VOTES = List.of("of", "bad", "bad_counts", "differ_after");

  /** How a channel of bad quality counts. */
  enum BadCounts {
    TRIP,
    ABSENT
  }

  private final Diagnostics problems;

  CauseLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /** Null after a diagnostic. */
  Cause read(Tree.Entry entry) {
    if (!(entry.value() instanceof Tree.Table)) {
      SourceText condition = Conditions.of(entry, problems);
      return condition == null
          ? null
          : Cause.plain(entry.key().text(), condition, entry.key().position());
    }
    TableReader reader = TableReader.open(entry, ControllerForms.CAUSE, problems);
    boolean voted = reader.has("vote");
    SourceText condition = voted ? null : reader.requiredText("when");
    if (!voted) {
      OF_VOTES.forEach(key -> reader.belongs(key, "votes: `vote: 2`"));
    } else {
      reader.belongs("when", "causes without a vote; those with one have `of`");
    }
    Vote vote = voted ? vote(reader) : null;
    long delay = reader.time("on_delay", 0, 0);
    Bypass bypass = bypass(reader.entry("bypass"));
    String text = reader.words("text");
    reader.finish();
    return condition == null && vote == null
        ? null
        : new Cause(
            entry.key().text(), condition, vote, delay, bypass, text, entry.key().position());
  }

  private Bypass bypass(Tree.Entry entry) {
    TableReader reader =
        entry == null ? null : TableReader.open(entry, ControllerForms.BYPASS, problems);
    if (reader == null) {
      return null;
    }
    SourceText when = reader.requiredText("when");
    reader.required("at_most");
    long atMost = reader.time("at_most", 0, 1);
    reader.finish();
    return when == null || atMost == 0 ? null : new Bypass(when, atMost);
  }

  private Vote vote(TableReader reader) {
    reader.entry("vote");
    Tree.Entry of = reader.entry("of");
    reader.required("of");
    Map<String, SourceText> bad = bad(reader.entry("bad"));
    TableReader table = of == null ? null : TableReader.open(of, "channels by name", problems);
    List<Channel> channels = table == null ? List.of() : channels(table, bad);
    BadCounts counts = reader.choice("bad_counts", BadCounts.class, BadCounts.TRIP);
    long differ = reader.time("differ_after", 0, 1);
    if (channels.isEmpty()) {
      return null;
    }
    if (channels.size() > MOST_CHANNELS) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_INTERLOCK,
                  of.key().position(),
                  "a vote of " + channels.size() + " channels")
              .expected("at most " + MOST_CHANNELS));
    }
    long needed = reader.whole("vote", 0, 1, channels.size());
    return needed == 0 ? null : new Vote((int) needed, channels, counts == BadCounts.TRIP, differ);
  }

  /** Conditions of bad quality by channel, in lower case; those left over belong to none. */
  private Map<String, SourceText> bad(Tree.Entry entry) {
    Map<String, SourceText> bad = new TreeMap<>();
    TableReader table =
        entry == null ? null : TableReader.open(entry, "channels of bad quality", problems);
    for (Tree.Entry channel : table == null ? List.<Tree.Entry>of() : table.entries()) {
      SourceText condition = Conditions.of(channel, problems);
      if (condition != null) {
        bad.put(channel.key().text().toLowerCase(Locale.ROOT), condition);
      }
    }
    return bad;
  }

  private List<Channel> channels(TableReader table, Map<String, SourceText> bad) {
    List<Channel> channels = new ArrayList<>();
    List<String> names = table.entries().stream().map(e -> e.key().text()).toList();
    for (Tree.Entry entry : table.entries()) {
      Name name = entry.key();
      SourceText condition = Conditions.of(entry, problems);
      SourceText isBad = bad.remove(name.text().toLowerCase(Locale.ROOT));
      if (Identifiers.check(name, problems) && condition != null) {
        channels.add(new Channel(name.text(), condition, isBad, name.position()));
      }
    }
    bad.forEach(
        (name, condition) ->
            problems.add(
                Diagnostic.error(
                        Code.UNKNOWN_NAME,
                        condition.whole(),
                        "the vote has no channel `" + name + "`")
                    .expected(String.join(", ", names))
                    .help(NearNames.question(name, names))));
    return List.copyOf(channels);
  }
}
