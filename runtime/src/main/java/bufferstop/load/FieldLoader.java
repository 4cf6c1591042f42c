package bufferstop.load;

import bufferstop.model.Diagnostic;
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
  private final Diagnostics problems;

  FieldLoader(ProjectFiles files, Diagnostics problems) {
    this.files = files;
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
        new WiringLoader(problems).read(files.section(project.tree("wiring")), controllerPoints),
        conditions(project, "hazards").stream()
            .map(c -> new Field.Hazard(c.name().text(), c.when(), c.name().position()))
            .toList());
  }

  private record Condition(Name name, SourceText when) {}

  private <T> List<T> each(
      TableReader project, String key, String what, BiFunction<Name, TableReader, T> read) {
    List<T> all = new ArrayList<>();
    Tree section = files.section(project.tree(key));
    TableReader table = section == null ? null : TableReader.open(section, key, problems);
    if (table != null) {
      for (Tree.Entry entry : table.entries()) {
        TableReader reader = TableReader.open(entry.value(), what, problems);
        if (reader != null && Identifiers.check(entry.key(), problems)) {
          T value = read.apply(entry.key(), reader);
          reader.finish();
          if (value != null) {
            all.add(value);
          }
        }
      }
    }
    return List.copyOf(all);
  }

  private Field.Supply supply(Name name, TableReader reader) {
    return new Field.Supply(name.text(), reader.words("text"), name.position());
  }

  private Field.PlantUse plant(Name name, TableReader reader) {
    Name model = reader.requiredName("model", name.position());
    Tree settings = files.section(reader.required("with", name.position()));
    return model == null || settings == null
        ? null
        : new Field.PlantUse(name.text(), model, settings, name.position());
  }

  private enum Contact {
    NORMALLY_OPEN,
    NORMALLY_CLOSED
  }

  private Field.PanelElement element(Name name, TableReader reader) {
    ElementKind kind = reader.choice("element", ElementKind.class, null);
    if (reader.required("element", name.position()) == null || kind == null) {
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
    Tree section = files.section(project.tree(key));
    TableReader table = section == null ? null : TableReader.open(section, key, problems);
    if (table != null) {
      for (Tree.Entry entry : table.entries()) {
        if (!(entry.value() instanceof Tree.Scalar scalar) || scalar.value().isEmpty()) {
          problems.add(
              Diagnostic.error(
                      entry.key().position(), "`" + entry.key().text() + "` has no condition")
                  .expected("a BOOL expression"));
        } else if (Identifiers.check(entry.key(), problems)) {
          all.add(new Condition(entry.key(), scalar.text()));
        }
      }
    }
    return all;
  }
}
