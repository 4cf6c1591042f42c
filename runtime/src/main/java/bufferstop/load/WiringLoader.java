package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field.Wire;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Reads the wiring. A wire is called by its own name, else by the controller point at either end.
 */
final class WiringLoader {
  private final Diagnostics problems;

  WiringLoader(Diagnostics problems) {
    this.problems = problems;
  }

  /** The wires; an end that is missing has an empty name. */
  List<Wire> read(List<Tree> section, Set<String> controllerPoints) {
    List<Wire> wires = new ArrayList<>();
    Map<String, Wire> byName = new TreeMap<>();
    for (Tree item : section) {
      TableReader reader = TableReader.open(item, FieldForms.WIRE, problems);
      Wire wire = reader == null ? null : wire(reader, controllerPoints);
      if (wire == null) {
        continue;
      }
      Wire earlier =
          wire.name().isEmpty()
              ? null
              : byName.putIfAbsent(wire.name().toLowerCase(Locale.ROOT), wire);
      wires.add(wire);
      if (earlier != null) {
        problems.add(
            Diagnostic.error(
                    Code.WIRED_TWICE, place(wire), "two wires are called `" + wire.name() + "`")
                .note(place(earlier), "the first one")
                .help("give this one a `name:` of its own"));
      }
    }
    return List.copyOf(wires);
  }

  /** The end, or the name, that a wire is called after. */
  private static Position place(Wire wire) {
    if (wire.to().text().equals(wire.name())) {
      return wire.to().position();
    }
    return wire.from().text().equals(wire.name()) ? wire.from().position() : wire.position();
  }

  private Wire wire(TableReader reader, Set<String> points) {
    Name nowhere = new Name("", reader.position());
    Name from = orElse(reader.requiredName("from"), nowhere);
    Name to = orElse(reader.requiredName("to"), nowhere);
    Name own = reader.name("name");
    reader.finish();
    if (own != null && !Identifiers.check(own, problems)) {
      return new Wire("", from, to, reader.position());
    }
    boolean landsOnPoint =
        points.contains(to.text().toLowerCase(Locale.ROOT)) || problems.doubts(to.text());
    String name = own != null ? own.text() : landsOnPoint ? to.text() : from.text();
    return new Wire(name, from, to, own == null ? reader.position() : own.position());
  }

  private static Name orElse(Name name, Name other) {
    return name == null ? other : name;
  }
}
