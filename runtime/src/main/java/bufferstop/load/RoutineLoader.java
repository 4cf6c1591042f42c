package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Form;
import bufferstop.model.Name;
import bufferstop.model.Routine;
import bufferstop.model.Routine.Pin;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.ValueType;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Reads functions and function blocks, those of a project and those of the libraries it names. */
final class RoutineLoader {
  /** So that storing the inputs of a call has room in one method. */
  private static final int MOST_INPUTS = 64;

  private static final Map<String, Form> PINS =
      Map.of(
          "inputs", RoutineForms.INPUT,
          "outputs", RoutineForms.OUTPUT,
          "locals", RoutineForms.LOCAL,
          "state", RoutineForms.STATE);

  private final ProjectFiles files;
  private final Sections sections;
  private final Diagnostics problems;
  private final Set<Path> read = new TreeSet<>(); // each library once, however often it is named
  private final List<TableReader> libraries = new ArrayList<>();
  private final List<Routine> routines = new ArrayList<>();

  RoutineLoader(ProjectFiles files, Sections sections, Diagnostics problems) {
    this.files = files;
    this.sections = sections;
    this.problems = problems;
  }

  /** Opens the libraries that a project names, and before each those that it names itself. */
  List<TableReader> open(TableReader from) {
    for (Name library : from.names("libraries")) {
      library(library);
    }
    return libraries;
  }

  /** What the libraries declare, then the project. */
  List<Routine> read(TableReader project) {
    for (TableReader library : libraries) {
      routines(library);
      library.finish();
    }
    routines(project);
    return List.copyOf(routines);
  }

  private void routines(TableReader from) {
    for (Tree.Entry entry : section(from, "functions", "functions by name")) {
      add(entry, function(entry));
    }
    for (Tree.Entry entry : section(from, "function_blocks", "function blocks by name")) {
      add(entry, block(entry));
    }
  }

  private List<Tree.Entry> section(TableReader from, String key, String what) {
    int errors = problems.errors();
    List<Tree.Entry> entries = sections.names(from, key, what);
    if (problems.errors() > errors || from.isMisspelt(key)) {
      Routine.doubtAll(problems);
    }
    return entries;
  }

  private void library(Name named) {
    Path file = ProjectFiles.beside(named);
    if (file == null) {
      Routine.doubtAll(problems);
      problems.add(
          Diagnostic.error(
                  Code.BAD_FILE_NAME, named.position(), "this cannot be the name of a file")
              .expected("the path of a library, from the folder of this file"));
    } else if (read.add(file.toAbsolutePath().normalize())) {
      Tree tree = files.read(file, named.position());
      TableReader reader =
          tree == null ? null : TableReader.open(tree, RoutineForms.LIBRARY, problems);
      if (reader == null) {
        Routine.doubtAll(problems);
        return;
      }
      reader.words("library");
      reader.words("text");
      open(reader);
      libraries.add(reader);
    }
  }

  private void add(Tree.Entry entry, Routine routine) {
    boolean named = Identifiers.check(entry.key(), problems);
    if (routine != null && named) {
      routines.add(routine);
    } else {
      Routine.doubt(entry.key().text(), problems);
    }
  }

  /** Null after a diagnostic. */
  private Routine function(Tree.Entry entry) {
    TableReader reader = TableReader.open(entry, RoutineForms.FUNCTION, problems);
    if (reader == null) {
      return null;
    }
    reader.belongs("outputs", "function blocks; a function has one value, `returns`");
    reader.belongs("state", "function blocks; a function keeps nothing, `locals`");
    Pins pins = new Pins(entry.key().text());
    List<Pin> inputs = pins.read(reader, "inputs");
    List<Pin> locals = pins.read(reader, "locals");
    ValueType result = noArray(reader, "returns", entry.key(), "the value of a function");
    boolean whole = pins.whole && result != null;
    return finished(entry, reader, new Parts(inputs, List.of(), locals, result, whole));
  }

  /** Null after a diagnostic. */
  private Routine block(Tree.Entry entry) {
    TableReader reader = TableReader.open(entry, RoutineForms.BLOCK, problems);
    if (reader == null) {
      return null;
    }
    reader.belongs("locals", "functions; a function block keeps its `state`");
    reader.belongs("returns", "functions; a function block has `outputs`");
    Pins pins = new Pins("");
    List<Pin> inputs = pins.read(reader, "inputs");
    reader.required("outputs");
    List<Pin> outputs = pins.read(reader, "outputs");
    List<Pin> state = pins.read(reader, "state");
    if (pins.whole && reader.has("outputs") && outputs.isEmpty()) {
      problems.add(
          Diagnostic.error(
                  Code.NOTHING_GIVEN,
                  reader.entry("outputs").key().position(),
                  "`" + entry.key().text() + "` has no output")
              .expected("at least one, or nothing can be seen of it"));
    }
    boolean whole = pins.whole && !outputs.isEmpty();
    return finished(entry, reader, new Parts(inputs, outputs, state, null, whole));
  }

  private record Parts(
      List<Pin> inputs, List<Pin> outputs, List<Pin> locals, ValueType result, boolean whole) {}

  private Routine finished(Tree.Entry entry, TableReader reader, Parts parts) {
    SourceText body = reader.requiredText("body");
    String text = reader.words("text");
    return !reader.finish() || body == null || !parts.whole
        ? null
        : new Routine(
            entry.key().text(),
            parts.inputs,
            parts.outputs,
            parts.locals,
            parts.result,
            text,
            body,
            entry.key().position());
  }

  /** Null, after a diagnostic, when it is missing or not known. */
  private ValueType type(TableReader reader, String key, Name of) {
    SourceText text = reader.requiredText(key);
    return text == null ? null : DeclaredType.read(text, of, sections.definitions(), problems);
  }

  /** Null after a diagnostic. */
  private ValueType noArray(TableReader reader, String key, Name of, String what) {
    ValueType type = type(reader, key, of);
    if (type == null || !type.isArray()) {
      return type;
    }
    problems.add(
        Diagnostic.error(Code.UNKNOWN_TYPE, reader.tree(key).position(), what + " is no array")
            .expected("one value; inputs, locals and state may be arrays"));
    return null;
  }

  /** The pins of one routine: their names differ from each other, whatever their sections. */
  private final class Pins {
    private final String own;
    private final Map<String, Name> taken = new TreeMap<>();
    private boolean whole = true;

    /**
     * No pins yet.
     *
     * @param own a name no pin may have, or empty
     */
    Pins(String own) {
      this.own = own;
    }

    List<Pin> read(TableReader routine, String key) {
      List<Pin> pins = new ArrayList<>();
      Tree.Entry section = routine.entry(key);
      TableReader table = section == null ? null : TableReader.open(section, key, problems);
      whole &= section == null || table != null;
      for (Tree.Entry entry : table == null ? List.<Tree.Entry>of() : table.entries()) {
        boolean named = Identifiers.check(entry.key(), problems) && isFree(entry.key());
        TableReader reader =
            TableReader.knowing(
                sections.definitions(), TableReader.open(entry, PINS.get(key), problems));
        Pin pin = reader == null ? null : pin(entry.key(), key, reader);
        whole &= named && pin != null;
        if (named && pin != null) {
          pins.add(pin);
        }
      }
      if (key.equals("inputs") && pins.size() > MOST_INPUTS) {
        problems.add(
            Diagnostic.error(
                    Code.TOO_MANY,
                    pins.get(MOST_INPUTS).position(),
                    "more than " + MOST_INPUTS + " inputs")
                .expected("at most " + MOST_INPUTS));
        whole = false;
      }
      return List.copyOf(pins);
    }

    private boolean isFree(Name name) {
      Name first = taken.putIfAbsent(name.text().toLowerCase(Locale.ROOT), name);
      if (first != null) {
        problems.add(
            Diagnostic.error(
                    Code.DECLARED_TWICE, name.position(), "`" + name.text() + "` is declared twice")
                .note(first.position(), "first here")
                .help("give one of them another name; case does not tell names apart"));
      } else if (name.text().equalsIgnoreCase(own)) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_NAME, name.position(), "`" + name.text() + "` is the function itself")
                .expected("another name: the body assigns its value to `" + own + "`"));
        return false;
      } else if (List.of("block", "retain").contains(name.text().toLowerCase(Locale.ROOT))) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_NAME,
                    name.position(),
                    "`" + name.text() + "` is no name for what a call gives or reads")
                .expected("another name: `block:` and `retain:` say what an instance is"));
        return false;
      }
      return first == null;
    }

    private Pin pin(Name name, String key, TableReader reader) {
      boolean isState = key.equals("state");
      reader.belongs("initial", "values; an instance begins as its block says");
      reader.belongs("block", "the state of a function block");
      Name block = isState && reader.has("block") ? reader.name("block") : null;
      if (isState && reader.has("block")) {
        String text = reader.words("text");
        return reader.finish() && block != null
            ? new Pin(name.text(), null, block, List.of(), false, text, name.position())
            : null;
      }
      ValueType type =
          key.equals("outputs")
              ? noArray(reader, "type", name, "an output")
              : type(reader, "type", name);
      boolean given = reader.has("initial");
      boolean input = key.equals("inputs");
      InitialValues initial = new InitialValues(reader, type, problems);
      initial.read(name);
      boolean fits = !input || !given || type == null || !type.isArray() || refuseInitial(reader);
      String text = reader.words("text");
      boolean known = reader.finish();
      return !known || type == null || !fits || !initial.isGood()
          ? null
          : new Pin(
              name.text(), type, null, initial.cells(), input && !given, text, name.position());
    }

    private boolean refuseInitial(TableReader reader) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry("initial").key().position(),
                  "an array as input has no `initial`")
              .expected("every call gives it: `initial` left out"));
      return false;
    }
  }
}
