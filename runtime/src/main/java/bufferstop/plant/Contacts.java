package bufferstop.plant;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.Definitions;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;

/**
 * What circuits may name: output contacts, panel elements, supplies, other circuits and plant
 * outputs, but nothing inside the controller. Each output that a circuit names gets a wire to the
 * circuits, called after the output, whose far end shows as {@code OUTPUT.contact}.
 */
final class Contacts implements Scope {
  private static final List<String> HEADS = List.of("panel.", "supplies.", "circuits.");

  private final Project project;
  private final Layout layout;
  private final long seed;
  private final List<Link> links = new ArrayList<>();
  private boolean allRead = true;

  Contacts(Project project, Layout layout, long seed) {
    this.project = project;
    this.layout = layout;
    this.seed = seed;
  }

  /** The wires made so far, in the order in which circuits named the outputs. */
  List<Link> links() {
    return links;
  }

  /** Notes that a circuit could not be read, so that outputs it names are not known. */
  void miss() {
    allRead = false;
  }

  boolean allRead() {
    return allRead;
  }

  @Override
  public Symbol find(String name) {
    Symbol symbol = layout.field().find(name);
    if (symbol == null || !isHardware(symbol)) {
      return null;
    }
    return symbol.kind() == Kind.OUTPUT ? contactOf(symbol) : symbol;
  }

  @Override
  public Definitions definitions() {
    return layout.field().definitions();
  }

  @Override
  public Collection<String> names() {
    return layout.field().names().stream().filter(n -> isHardware(layout.field().find(n))).toList();
  }

  private static boolean isHardware(Symbol symbol) {
    return symbol.kind() == Kind.OUTPUT
        || symbol.kind() == Kind.PLANT_PORT
        || HEADS.stream().anyMatch(h -> symbol.name().toLowerCase(Locale.ROOT).startsWith(h));
  }

  private Symbol contactOf(Symbol output) {
    String name = output.name() + ".contact";
    Symbol known = layout.field().find(name);
    if (known != null) {
      return known;
    }
    Symbol contact =
        layout.add(
            name,
            output.type(),
            Kind.INTERNAL,
            Seen.BY_FIELD,
            "",
            "contact of " + output.name(),
            output.declared());
    WireRun wire =
        new WireRun(output.name(), true, new SeededStream(seed, "wire." + output.name()));
    int cell = contact.index();
    Symbol remote = layout.field().find(output.name() + ".remote");
    links.add(
        new Link(
            remote == null ? output.index() : remote.index(),
            output.type(),
            supplyOf(output),
            wire,
            (value, cells) -> cells[cell] = value != 0 ? 1 : 0));
    return contact;
  }

  private int supplyOf(Symbol output) {
    for (Point point : project.controller().points()) {
      if (point.name().equalsIgnoreCase(output.name())) {
        return supplyNumber(project, point.supply());
      }
    }
    return -1;
  }

  /** Number of a supply, or -1. */
  static int supplyNumber(Project project, Name supply) {
    for (int i = 0; supply != null && i < project.field().supplies().size(); i++) {
      if (project.field().supplies().get(i).name().equalsIgnoreCase(supply.text())) {
        return i;
      }
    }
    return -1;
  }
}
