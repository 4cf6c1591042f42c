package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field;
import bufferstop.model.Point;
import bufferstop.model.Project;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Values;
import java.util.List;

/**
 * The response budget of every wire from a plant to a digital input: the shortest pulse the plant
 * declares against filter, scan and the cycle of a remote node, together. A pulse at least that
 * long is seen whatever the phase and the kind of filter (F6.4c, the safe rule [derived]).
 */
final class PulseBudget {
  private static final double MILLIS = 1e3;

  private final Project project;
  private final List<PlantUnit> plants;
  private final Diagnostics problems;

  PulseBudget(Project project, List<PlantUnit> plants, Diagnostics problems) {
    this.project = project;
    this.plants = plants;
    this.problems = problems;
  }

  /** Warns of every pulse that may be lost. */
  void check() {
    for (Field.Wire wire : project.field().wires()) {
      for (Point point : project.controller().points()) {
        if (point.kind() == Kind.INPUT && point.name().equalsIgnoreCase(wire.to().text())) {
          check(wire, point);
        }
      }
    }
  }

  private void check(Field.Wire wire, Point point) {
    double given = shortest(wire.from().text());
    double needed = (point.filterMicros() + project.periodMicros() + cycleMicros(point)) * 1e-6;
    if (given < needed) {
      String link = point.node() == null ? "" : ", cycle of its node";
      problems.add(
          Diagnostic.warning(
                  Code.PULSE_TOO_SHORT,
                  wire.from().position(),
                  "a pulse of `"
                      + wire.from().text()
                      + "` may be lost: it can be as short as "
                      + millis(given)
                      + ", `"
                      + point.name()
                      + "` needs "
                      + millis(needed))
              .expected("at least the input's filter, the scan" + link + ", together")
              .note(point.position(), "the input")
              .help(
                  "shorten filter or scan, or let the plant give longer pulses: less speed, a"
                      + " longer off delay"));
    }
  }

  private long cycleMicros(Point point) {
    long step = project.plantStepMicros();
    for (Field.Node node : project.field().nodes()) {
      if (point.node() != null && node.name().equalsIgnoreCase(point.node().text())) {
        return (node.cycleMicros() + step - 1) / step * step;
      }
    }
    return 0;
  }

  private double shortest(String from) {
    for (PlantUnit plant : plants) {
      for (int i = 0; i < plant.outputs().size(); i++) {
        String name = plant.name() + "." + plant.outputs().get(i).name();
        if (name.equalsIgnoreCase(from)) {
          return plant.shortestPulse(i);
        }
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  private static String millis(double seconds) {
    return Values.number(Math.round(seconds * MILLIS * 100) / 100.0) + " ms";
  }
}
