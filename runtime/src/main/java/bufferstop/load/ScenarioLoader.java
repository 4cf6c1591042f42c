package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads scenario files: the other door of this room. */
public final class ScenarioLoader {
  private static final long DEFAULT_SEED = 1;
  private static final long MOST_SEEDS = 1_000_000;

  private final Diagnostics problems;
  private final ProjectFiles files;
  private final StoredRunLoader runs;

  private ScenarioLoader(Diagnostics problems) {
    this.problems = problems;
    files = new ProjectFiles(problems);
    runs = new StoredRunLoader(files, problems);
  }

  /**
   * Reads one file.
   *
   * @param seed in place of the file's own; null to take that
   * @return a scenario for each row of its table and each of its seeds; none, after a diagnostic,
   *     when there is nothing to go on with
   */
  public static List<Scenario> read(Path file, Long seed, Diagnostics problems) {
    return new ScenarioLoader(problems).scenarios(file, seed);
  }

  private List<Scenario> scenarios(Path file, Long seed) {
    Tree root = files.read(file.normalize(), Position.ofFile(file.toString()));
    TableReader outer =
        root == null ? null : TableReader.open(root, ScenarioForms.SCENARIO, problems);
    if (outer == null) {
      return List.of();
    }
    long first =
        seed == null ? outer.whole("seed", DEFAULT_SEED, Long.MIN_VALUE, Long.MAX_VALUE) : seed;
    long seeds = outer.whole("seeds", 1, 1, MOST_SEEDS);
    Parts setups = setups(outer);
    Map<String, Tree> defaults = new LinkedHashMap<>(setups.parameters);
    defaults.putAll(parameters(outer.entry("parameters")));
    List<Scenario> all = new ArrayList<>();
    for (Map<String, Tree> row : rows(outer.entry("table"))) {
      for (long s = first; s < first + seeds; s++) {
        Map<String, Tree> values = new LinkedHashMap<>(defaults);
        values.putAll(row);
        String label = row.isEmpty() ? "" : " [" + label(row) + "]";
        String drawn = seeds == 1 ? "" : " (seed " + s + ")";
        Scenario scenario = new Row(root, setups, values, s, label + drawn).read();
        if (scenario != null) {
          all.add(scenario);
        }
      }
    }
    return List.copyOf(all);
  }

  /** What set-up files give, in their order. */
  private record Parts(
      Map<String, Tree> parameters,
      List<Tree> stimuli,
      List<Tree> expectations,
      List<Tree.Entry> with) {}

  private Parts setups(TableReader outer) {
    Parts parts =
        new Parts(new LinkedHashMap<>(), new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    for (Name name : outer.names("setup")) {
      Path file = ProjectFiles.beside(name);
      Tree tree = file == null ? null : files.read(file, name.position());
      TableReader reader =
          tree == null ? null : TableReader.open(tree, ScenarioForms.SETUP, problems);
      if (reader != null) {
        parts.parameters.putAll(parameters(reader.entry("parameters")));
        parts.stimuli.addAll(items(reader.entry("do")));
        parts.expectations.addAll(items(reader.entry("expect")));
        parts.with.addAll(settings(reader.entry("with")));
        reader.finish();
      }
    }
    return parts;
  }

  /** The entries of {@code with}; none, after a diagnostic, when it is no mapping. */
  private List<Tree.Entry> settings(Tree.Entry with) {
    TableReader reader =
        with == null ? null : TableReader.open(with, "settings by plant", problems);
    return reader == null ? List.of() : reader.entries();
  }

  private Map<String, Tree> parameters(Tree.Entry entry) {
    Map<String, Tree> values = new LinkedHashMap<>();
    TableReader reader = entry == null ? null : TableReader.open(entry, "parameters", problems);
    if (reader != null) {
      reader.entries().forEach(e -> values.put(e.key().text(), e.value()));
    }
    return values;
  }

  /** The rows of the table; a single one that changes nothing where there is no table. */
  private List<Map<String, Tree>> rows(Tree.Entry entry) {
    List<Map<String, Tree>> rows = new ArrayList<>();
    for (Tree item : items(entry)) {
      TableReader reader = TableReader.open(item, "a row of the table", problems);
      if (reader != null) {
        Map<String, Tree> row = new LinkedHashMap<>();
        reader.entries().forEach(e -> row.put(e.key().text(), e.value()));
        rows.add(row);
      }
    }
    return rows.isEmpty() ? List.of(Map.of()) : rows;
  }

  private static String label(Map<String, Tree> row) {
    if (row.containsKey("row")) {
      return Template.shown(row.get("row"));
    }
    List<String> values = new ArrayList<>();
    row.forEach((name, value) -> values.add(name + " = " + Template.shown(value)));
    return String.join(", ", values);
  }

  private List<Tree> items(Tree.Entry entry) {
    if (entry == null) {
      return List.of();
    }
    if (entry.value() instanceof Tree.Items items) {
      return items.items();
    }
    problems.add(
        Diagnostic.error(
                Code.WRONG_KIND,
                TableReader.place(entry),
                "`" + entry.key().text() + "` is no list")
            .expected("a list of mappings"));
    return List.of();
  }

  /** One row of a scenario's table with one seed. */
  private final class Row {
    private final Tree root;
    private final Parts setups;
    private final long seed;
    private final String label;
    private final Template template;

    Row(Tree root, Parts setups, Map<String, Tree> values, long seed, String label) {
      this.root = root;
      this.setups = setups;
      this.seed = seed;
      this.label = label;
      template = new Template(values, seed, problems);
    }

    private Scenario read() {
      TableReader reader = TableReader.open(filled(), ScenarioForms.SCENARIO, problems);
      List.of("parameters", "table", "setup", "seed", "seeds").forEach(reader::tree);
      SourceText name = reader.requiredText("scenario");
      reader.required("for");
      long duration = reader.time("for", 0, 1);
      Tree expect = reader.required("expect");
      StimulusLoader stimuli = new StimulusLoader(problems);
      ExpectationLoader expectations = new ExpectationLoader(runs, problems);
      List<Scenario.Stimulus> done = new ArrayList<>();
      List<Tree> deeds = joined(setups.stimuli, "do", reader.entry("do"));
      for (Tree item : deeds) {
        TableReader one = TableReader.open(item, ScenarioForms.STIMULUS, problems);
        Scenario.Stimulus stimulus = one == null ? null : stimuli.read(one);
        if (stimulus != null) {
          done.add(stimulus);
        }
      }
      List<Scenario.Expectation> expected = new ArrayList<>();
      for (Tree item : joined(setups.expectations, "expect", reader.entry("expect"))) {
        TableReader one = TableReader.open(item, ScenarioForms.EXPECTATION, problems);
        Scenario.Expectation expectation = one == null ? null : expectations.read(one);
        if (expectation != null) {
          expected.add(expectation);
        }
      }
      Scenario scenario =
          new Scenario(
              (name == null ? "unnamed" : name.value()) + label,
              reader.position().file(),
              requirement(reader),
              reader.names("tags").stream().map(Name::text).toList(),
              files.sources().stream().map(Project.Source::file).distinct().toList(),
              duration,
              seed,
              settings(reader.entry("with")),
              List.copyOf(done),
              List.copyOf(expected),
              reader.position());
      reader.finish();
      if (expect instanceof Tree.Items items && items.items().isEmpty()) {
        problems.add(
            Diagnostic.error(Code.NOTHING_GIVEN, expect.position(), "the scenario expects nothing")
                .help("a scenario that cannot fail proves nothing; add an expectation"));
      }
      return scenario;
    }

    /** The scenario with its parameters and what is random put in; the table itself is left. */
    private Tree filled() {
      if (!(root instanceof Tree.Table table)) {
        return root;
      }
      List<Tree.Entry> entries = new ArrayList<>();
      for (Tree.Entry entry : table.entries()) {
        String key = entry.key().text();
        boolean open = !List.of("parameters", "table", "do", "expect").contains(key);
        entries.add(
            new Tree.Entry(entry.key(), open ? template.fill(entry.value(), key) : entry.value()));
      }
      return new Tree.Table(List.copyOf(entries), table.flow(), table.position());
    }

    private List<Tree> joined(List<Tree> setup, String path, Tree.Entry own) {
      List<Tree> all = new ArrayList<>(template.fill(setup, "setup/" + path));
      all.addAll(template.fill(items(own), path));
      return all;
    }

    private String requirement(TableReader reader) {
      List<String> all = reader.names("requirement").stream().map(Name::text).toList();
      return String.join(", ", all);
    }

    /** Settings laid over those of the project's plants, each under its plant's name. */
    private List<Tree.Entry> settings(Tree.Entry with) {
      List<Tree.Entry> sound = new ArrayList<>();
      for (Tree.Entry plant : setups.with) {
        sound.add(new Tree.Entry(plant.key(), template.fill(plant.value(), "with")));
      }
      sound.addAll(ScenarioLoader.this.settings(with));
      sound.removeIf(p -> TableReader.open(p, "settings of the plant", problems) == null);
      return List.copyOf(sound);
    }
  }
}
