package bufferstop.load;

import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Field.ElementKind;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.BiFunction;

/** Reads what lies outside the controller: supplies, plants, panel, circuits, wiring, hazards. */
final class FieldLoader {
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
        each(project, "supplies", "a supply", this::supply),
        each(project, "plants", "a plant", this::plant),
        each(project, "panel", "a panel element", this::element),
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
      TableReader project, String key, String what, BiFunction<Name, TableReader, T> read) {
    List<T> all = new ArrayList<>();
    for (Tree.Entry entry : sections.names(project, key, key + " by name")) {
      boolean named = Identifiers.check(entry.key(), problems);
      TableReader reader = TableReader.open(entry, what, problems);
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

  private Field.PlantUse plant(Name name, TableReader reader) {
    Name model = reader.requiredName("model");
    Tree with = reader.required("with");
    Tree settings = with == null ? null : files.section(with);
    return model == null || settings == null
        ? null
        : new Field.PlantUse(name.text(), model, settings, name.position());
  }

  private enum Contact {
    NORMALLY_OPEN,
    NORMALLY_CLOSED
  }

  private Field.PanelElement element(Name name, TableReader reader) {
    reader.required("element");
    ElementKind kind = reader.choice("element", ElementKind.class, null);
    if (kind == null) {
      List.of("contact", "latching", "text").forEach(reader::tree);
      return null;
    }
    boolean button = kind == ElementKind.PUSH_BUTTON;
    return new Field.PanelElement(
        name.text(),
        kind,
        button
            && reader.choice("contact", Contact.class, Contact.NORMALLY_OPEN)
                == Contact.NORMALLY_CLOSED,
        button && reader.bool("latching", false),
        reader.words("text"),
        name.position());
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
