package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field.Wire;
import bufferstop.model.Name;
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

  List<Wire> read(Tree section, Set<String> controllerPoints) {
    List<Wire> wires = new ArrayList<>();
    if (section == null) {
      return wires;
    }
    if (!(section instanceof Tree.Items items)) {
      problems.add(
          Diagnostic.error(section.position(), "`wiring` is no list")
              .expected("a list of {from: , to: }"));
      return wires;
    }
    Map<String, Wire> byName = new TreeMap<>();
    for (Tree item : items.items()) {
      TableReader reader = TableReader.open(item, "a wire", problems);
      Wire wire = reader == null ? null : wire(reader, controllerPoints);
      if (wire == null) {
        continue;
      }
      Wire earlier = byName.putIfAbsent(wire.name().toLowerCase(Locale.ROOT), wire);
      if (earlier == null) {
        wires.add(wire);
      } else {
        problems.add(
            Diagnostic.error(wire.position(), "two wires are called `" + wire.name() + "`")
                .note(earlier.position(), "the first one")
                .help("give this one a `name:` of its own"));
      }
    }
    return List.copyOf(wires);
  }

  private Wire wire(TableReader reader, Set<String> points) {
    Name from = reader.requiredName("from", reader.position());
    Name to = reader.requiredName("to", reader.position());
    Name own = reader.name("name");
    reader.finish();
    if (from == null || to == null || own != null && !Identifiers.check(own, problems)) {
      return null;
    }
    boolean landsOnPoint = points.contains(to.text().toLowerCase(Locale.ROOT));
    String name = own != null ? own.text() : landsOnPoint ? to.text() : from.text();
    return new Wire(name, from, to, reader.position());
  }
}
