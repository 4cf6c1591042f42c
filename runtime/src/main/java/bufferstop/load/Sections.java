package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Definitions;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Tree;
import java.util.List;
import java.util.Set;

/**
 * Opens the sections of a mapping, each standing there or in a file beside it. What a section that
 * cannot be read would have declared is in doubt from then on.
 */
final class Sections {
  /** Sections whose names begin with their own; those of others may be any. */
  private static final Set<String> WITH_HEADS =
      Set.of("supplies", "nodes", "panel", "circuits", "hazards", "alarms", "wiring");

  /** Sections that declare no name an expression may use. */
  private static final Set<String> WITHOUT_NAMES =
      Set.of(
          "modbus",
          "hmi",
          "field",
          "plc",
          "map",
          "units",
          "clients",
          "identification",
          "private",
          "secure",
          "sunspec",
          "scale",
          "billing",
          "consumers",
          "periods",
          "valid",
          "energy",
          "seasons",
          "times",
          "demand",
          "reactive",
          "power_factor",
          "tax",
          "rounding",
          "roles",
          "functions",
          "function_blocks");

  private final ProjectFiles files;
  private final Diagnostics problems;
  private Definitions definitions = Definitions.NONE;

  Sections(ProjectFiles files, Diagnostics problems) {
    this.files = files;
    this.problems = problems;
  }

  /** What was defined so far; nothing before {@link #define}. */
  Definitions definitions() {
    return definitions;
  }

  void define(Definitions all) {
    definitions = all;
  }

  /** A section that is a mapping; null when absent, or wrong after a diagnostic. */
  TableReader table(TableReader from, String key, Form form) {
    Tree.Entry section = section(from, key);
    TableReader table = section == null ? null : TableReader.open(section, form, problems);
    return doubted(key, section, table);
  }

  private TableReader doubted(String key, Tree.Entry section, TableReader table) {
    if (section != null && table == null) {
      doubt(key);
    }
    return table;
  }

  /** The entries of a section that is a mapping from names of the user's choice. */
  List<Tree.Entry> names(TableReader from, String key, String what) {
    Tree.Entry section = section(from, key);
    TableReader opened = section == null ? null : TableReader.open(section, what, problems);
    TableReader table = doubted(key, section, opened);
    return table == null ? List.of() : table.entries();
  }

  /** A section that is a list; empty when absent, or wrong after a diagnostic. */
  List<Tree> list(TableReader from, String key, String what) {
    Tree.Entry section = section(from, key);
    if (section == null) {
      return List.of();
    }
    if (section.value() instanceof Tree.Items items) {
      return items.items();
    }
    problems.add(
        Diagnostic.error(Code.WRONG_KIND, TableReader.place(section), "`" + key + "` is no list")
            .expected(what));
    doubt(key);
    return List.of();
  }

  private Tree.Entry section(TableReader from, String key) {
    Tree.Entry entry = from.entry(key);
    Tree tree = entry == null ? null : files.section(entry.value());
    if (entry != null && tree == null || from.isMisspelt(key)) {
      doubt(key);
    }
    return tree == null ? null : new Tree.Entry(entry.key(), tree);
  }

  private void doubt(String key) {
    if (WITH_HEADS.contains(key)) {
      problems.doubt(key);
    } else if (!WITHOUT_NAMES.contains(key)) {
      problems.doubtAll();
    }
  }
}
