package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Scenario;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Reads a scenario file: the other door of this room. */
public final class ScenarioLoader {
  private static final long DEFAULT_SEED = 1;

  private final Diagnostics problems;

  private ScenarioLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /** Reads one file; null, after a diagnostic, when there is nothing to go on with. */
  public static Scenario read(Path file, Diagnostics problems) {
    Tree root = new ProjectFiles(problems).read(file.normalize(), Position.ofFile(file.toString()));
    TableReader reader = root == null ? null : TableReader.open(root, "a scenario", problems);
    return reader == null ? null : new ScenarioLoader(problems).scenario(reader);
  }

  private Scenario scenario(TableReader reader) {
    SourceText name = reader.requiredText("scenario");
    reader.required("for");
    long duration = reader.time("for", 0, 1);
    StimulusLoader stimuli = new StimulusLoader(problems);
    ExpectationLoader expectations = new ExpectationLoader(problems);
    Tree expect = reader.required("expect");
    Scenario scenario =
        new Scenario(
            name == null ? "unnamed" : name.value(),
            reader.position().file(),
            reader.words("requirement"),
            duration,
            reader.whole("seed", DEFAULT_SEED, Long.MIN_VALUE, Long.MAX_VALUE),
            settings(reader.entry("with")),
            each(reader.entry("do"), "a stimulus", stimuli::read),
            each(reader.entry("expect"), "an expectation", expectations::read),
            reader.position());
    reader.finish();
    if (expect instanceof Tree.Items items && items.items().isEmpty()) {
      problems.add(
          Diagnostic.error(expect.position(), "the scenario expects nothing")
              .help("a scenario that cannot fail proves nothing; add an expectation"));
    }
    return scenario;
  }

  /** Settings laid over those of the project's plants, each under its plant's name. */
  private List<Tree.Entry> settings(Tree.Entry with) {
    TableReader reader =
        with == null ? null : TableReader.open(with, "settings by plant", problems);
    List<Tree.Entry> sound = new ArrayList<>();
    for (Tree.Entry plant : reader == null ? List.<Tree.Entry>of() : reader.entries()) {
      if (TableReader.open(plant, "settings of the plant", problems) != null) {
        sound.add(plant);
      }
    }
    return List.copyOf(sound);
  }

  private <T> List<T> each(Tree.Entry entry, String what, Function<TableReader, T> read) {
    List<T> all = new ArrayList<>();
    if (entry != null && !(entry.value() instanceof Tree.Items)) {
      problems.add(
          Diagnostic.error(TableReader.place(entry), "`" + entry.key().text() + "` is no list")
              .expected("a list of mappings"));
    }
    if (entry != null && entry.value() instanceof Tree.Items items) {
      for (Tree item : items.items()) {
        TableReader reader = TableReader.open(item, what, problems);
        T value = reader == null ? null : read.apply(reader);
        if (value != null) {
          all.add(value);
        }
      }
    }
    return List.copyOf(all);
  }
}
