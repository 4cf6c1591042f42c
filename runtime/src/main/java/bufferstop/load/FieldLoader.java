package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Field.ElementKind;
import bufferstop.model.Form;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.BiFunction;

/** Reads what lies outside the controller: supplies, plants, panel, circuits, wiring, hazards. */
final class FieldLoader {
  private static final long DEFAULT_CYCLE = 20_000;
  private static final long DEFAULT_TIMEOUT = 200_000;

  private final ProjectFiles files;
  private final Sections sections;
  private final Diagnostics problems;

  FieldLoader(ProjectFiles files, Diagnostics problems) {
    this.files = files;
    this.sections = new Sections(files, problems);
    this.problems = problems;
  }

  Field read(TableReader project, Set<String> controllerPoints) {
    return new Field(
        each(project, "supplies", FieldForms.SUPPLY, this::supply),
        each(project, "nodes", FieldForms.NODE, this::node),
        each(project, "plants", FieldForms.PLANT, this::plant),
        each(project, "panel", FieldForms.ELEMENT, this::element),
        conditions(project, "circuits").stream()
            .map(c -> new Field.Circuit(c.name().text(), c.when(), c.name().position()))
            .toList(),
        new WiringLoader(problems)
            .read(sections.list(project, "wiring", "a list of {from: , to: }"), controllerPoints),
        conditions(project, "hazards").stream()
            .map(c -> new Field.Hazard(c.name().text(), c.when(), c.name().position()))
            .toList());
  }

  private record Condition(Name name, SourceText when) {}

  private <T> List<T> each(
      TableReader project, String key, Form form, BiFunction<Name, TableReader, T> read) {
    List<T> all = new ArrayList<>();
    for (Tree.Entry entry : sections.names(project, key, key + " by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, form, problems);
      T value = reader == null ? null : read.apply(entry.key(), reader);
      if (reader != null) {
        reader.finish();
      }
      if (value != null && named) {
        all.add(value);
      } else {
        problems.doubt(key.equals("plants") ? entry.key().text() : key + "." + entry.key().text());
      }
    }
    return List.copyOf(all);
  }

  private Field.Supply supply(Name name, TableReader reader) {
    return new Field.Supply(name.text(), reader.words("text"), name.position());
  }

  private Field.Node node(Name name, TableReader reader) {
    long cycle = reader.time("cycle", DEFAULT_CYCLE, 1);
    long timeout = reader.time("timeout", DEFAULT_TIMEOUT, 1);
    if (timeout <= cycle) {
      SourceText given = reader.text(reader.has("timeout") ? "timeout" : "cycle");
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  given.whole(),
                  "node `%s` would be lost after %s, before its next cycle of %s"
                      .formatted(name.text(), Values.time(timeout), Values.time(cycle)))
              .expected("`timeout` longer than `cycle`"));
    }
    return new Field.Node(
        name.text(),
        cycle,
        timeout,
        reader.choice("on_loss", Field.OnLoss.class, Field.OnLoss.SAFE),
        reader.words("text"),
        name.position());
  }

  private Field.PlantUse plant(Name name, TableReader reader) {
    Name model = reader.requiredName("model");
    Tree with = reader.required("with");
    Tree settings = with == null ? null : files.section(with);
    return model == null || settings == null
        ? null
        : new Field.PlantUse(name.text(), model, settings, name.position());
  }

  enum Contact {
    NORMALLY_OPEN,
    NORMALLY_CLOSED
  }

  private Field.PanelElement element(Name name, TableReader reader) {
    reader.required("element");
    ElementKind kind = reader.choice("element", ElementKind.class, null);
    if (kind == null) {
      List.of("contact", "latching", "positions", "text").forEach(reader::tree);
      return null;
    }
    boolean button = kind == ElementKind.PUSH_BUTTON;
    boolean selector = kind == ElementKind.SELECTOR;
    List<String> positions = selector ? positions(reader) : List.of();
    if (selector && positions.isEmpty()) {
      problems.doubt("panel." + name.text());
    }
    reader.belongs("contact", "push buttons");
    reader.belongs("latching", "push buttons");
    reader.belongs("positions", "selectors");
    return new Field.PanelElement(
        name.text(),
        kind,
        button
            && reader.choice("contact", Contact.class, Contact.NORMALLY_OPEN)
                == Contact.NORMALLY_CLOSED,
        button && reader.bool("latching", false),
        positions,
        reader.words("text"),
        name.position());
  }

  private List<String> positions(TableReader reader) {
    List<Name> names = reader.requiredNames("positions");
    List<String> positions = new ArrayList<>();
    Map<String, Name> seen = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);
    for (Name name : names) {
      Name before = seen.putIfAbsent(name.text(), name);
      if (before != null) {
        problems.add(
            Diagnostic.error(
                    Code.GIVEN_TWICE,
                    name.position(),
                    "position `" + name.text() + "` is given twice")
                .note(before.position(), "first here")
                .help("case does not tell names apart"));
      } else if (Identifiers.check(name, problems)) {
        positions.add(name.text());
      }
    }
    return List.copyOf(positions);
  }

  private List<Condition> conditions(TableReader project, String key) {
    List<Condition> all = new ArrayList<>();
    for (Tree.Entry entry : sections.names(project, key, key + " by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      SourceText condition = Conditions.of(entry, problems);
      if (named && condition != null) {
        all.add(new Condition(entry.key(), condition));
      } else {
        problems.doubt(key + "." + entry.key().text());
      }
    }
    return all;
  }
}
