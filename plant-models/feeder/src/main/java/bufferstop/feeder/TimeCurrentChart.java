package bufferstop.feeder;

import bufferstop.feeder.ProtectiveDevice.Current;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Time over current on logarithmic scales, as a self-contained SVG document: clearing times of all
 * devices, what damages conductors, and the run's trips as points. Currents are referred to the
 * lowest voltage at which a device works.
 */
final class TimeCurrentChart {
  private static final double LEFT = 70;
  private static final double TOP = 40;
  private static final double SIZE = 560;
  private static final double LEGEND = 230;
  private static final double SHORTEST = 0.01;
  private static final int TIME_DECADES = 5; // to 1000 s
  private static final int POINTS = 240;
  private static final String[] COLOURS = {
    "#1b5e8a", "#a8452c", "#3d7a3a", "#7a4b8c", "#8a6d1b", "#2b7f7a", "#555555"
  };

  private final Coordination coordination;
  private final double base;
  private double lowest;
  private int decades;
  private final StringBuilder svg = new StringBuilder();
  private final List<String> legend = new ArrayList<>();

  TimeCurrentChart(Coordination coordination) {
    this.coordination = coordination;
    base = coordination.baseVolts();
  }

  String svg() {
    if (coordination.devices.isEmpty()) {
      return "";
    }
    range();
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.0f\" height=\"%.0f\" "
            + "font-family=\"sans-serif\" font-size=\"11\">",
        LEFT + SIZE + LEGEND, TOP + SIZE + 50);
    add(
        "<rect width=\"%.0f\" height=\"%.0f\" fill=\"#fbfaf7\"/>",
        LEFT + SIZE + LEGEND, TOP + SIZE + 50);
    add(
        "<text x=\"%.0f\" y=\"20\" font-size=\"13\">Clearing time over current at %.0f V; a bench"
            + " model, no protection study</text>",
        LEFT, base);
    grid();
    for (Current of : Current.values()) {
      for (ProtectiveDevice device : coordination.devices) {
        if (Coordination.sees(device, of)) {
          curve(of, device);
        }
      }
    }
    for (Conductor conductor : coordination.conductors) {
      damage(conductor);
    }
    for (ProtectiveDevice device : coordination.devices) {
      if (device instanceof Relay relay) {
        trips(relay);
      }
    }
    legend();
    return svg.append("</svg>\n").toString();
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values)).append('\n');
  }

  /** Currents from a decade below the smallest setting to a decade that holds the largest fault. */
  private void range() {
    double least = Double.POSITIVE_INFINITY;
    double most = 1;
    for (ProtectiveDevice d : coordination.devices) {
      double k = referred(d.branch());
      for (Current of : Current.values()) {
        least = Math.min(least, d.leastAmperes(of) * k);
        most = Math.max(most, coordination.most(of, d.branch()) * k);
      }
    }
    if (least == Double.POSITIVE_INFINITY) {
      least = most / 100;
    }
    int low = (int) Math.floor(StrictMath.log10(least));
    int high = (int) Math.ceil(StrictMath.log10(Math.max(most, 10 * least)));
    lowest = StrictMath.pow(10, low);
    decades = Math.max(1, high - low);
  }

  private double referred(int branch) {
    return coordination.nominalVolts(branch) / base;
  }

  private double x(double amperes) {
    return LEFT + SIZE * StrictMath.log10(amperes / lowest) / decades;
  }

  private double y(double seconds) {
    return TOP + SIZE * (1 - StrictMath.log10(seconds / SHORTEST) / TIME_DECADES);
  }

  private void grid() {
    for (int d = 0; d <= decades; d++) {
      for (int m = 1; m < (d == decades ? 2 : 10); m++) {
        double a = lowest * StrictMath.pow(10, d) * m;
        line(x(a), TOP, x(a), TOP + SIZE, m == 1 ? "#b9b4a6" : "#e6e2d6");
      }
      double a = lowest * StrictMath.pow(10, d);
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\">%s A</text>",
          x(a), TOP + SIZE + 16, plain(a));
    }
    for (int d = 0; d <= TIME_DECADES; d++) {
      for (int m = 1; m < (d == TIME_DECADES ? 2 : 10); m++) {
        double t = SHORTEST * StrictMath.pow(10, d) * m;
        line(LEFT, y(t), LEFT + SIZE, y(t), m == 1 ? "#b9b4a6" : "#e6e2d6");
      }
      double t = SHORTEST * StrictMath.pow(10, d);
      add(
          "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"end\">%s s</text>",
          LEFT - 6, y(t) + 4, plain(t));
    }
  }

  private static String plain(double value) {
    return value < 1
        ? String.format(Locale.ROOT, "%.2g", value)
        : String.format(Locale.ROOT, "%.0f", value);
  }

  private void line(double x1, double y1, double x2, double y2, String colour) {
    add(
        "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\"/>",
        x1, y1, x2, y2, colour);
  }

  private void curve(Current of, ProtectiveDevice device) {
    double k = referred(device.branch());
    String dash = of == Current.EARTH ? " stroke-dasharray=\"12 3\"" : "";
    String colour = next(device.label() + (of == Current.EARTH ? ", earth" : ""), dash);
    path(colour, dash, a -> device.clearingSeconds(of, a / k));
    double fault = coordination.most(of, device.branch()) * k;
    add(
        "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\""
            + " stroke-dasharray=\"2 4\"/>",
        x(fault), TOP, x(fault), TOP + SIZE, colour);
  }

  private void damage(Conductor conductor) {
    double k = referred(conductor.branch());
    String dash = " stroke-dasharray=\"7 4\"";
    String colour = next("damage of line " + conductor.name, dash);
    path(colour, dash, a -> conductor.damageLimit() * k * k / (a * a));
  }

  private String next(String label, String dash) {
    String colour = COLOURS[legend.size() % COLOURS.length];
    legend.add(
        String.format(
            Locale.ROOT,
            "<line x1=\"%%.0f\" y1=\"%%.0f\" x2=\"%%.0f\" y2=\"%%.0f\" stroke=\"%s\""
                + " stroke-width=\"2\"%s/><text x=\"%%.0f\" y=\"%%.0f\">%s</text>",
            colour,
            dash,
            label));
    return colour;
  }

  /** A time for a current. */
  private interface Times {
    double at(double amperes);
  }

  private void path(String colour, String dash, Times times) {
    StringBuilder points = new StringBuilder();
    double longest = SHORTEST * StrictMath.pow(10, TIME_DECADES);
    for (int i = 0; i <= POINTS; i++) {
      double a = lowest * StrictMath.pow(10, decades * i / (double) POINTS);
      double t = times.at(a);
      if (t >= SHORTEST && t <= longest) {
        points.append(String.format(Locale.ROOT, "%.1f,%.1f ", x(a), y(t)));
      }
    }
    add(
        "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"2\"%s/>",
        points.toString().strip(), colour, dash);
  }

  private void trips(Relay relay) {
    double k = referred(relay.branch());
    double longest = SHORTEST * StrictMath.pow(10, TIME_DECADES);
    for (int i = 0; i < relay.records(); i++) {
      double a = relay.recordedAmperes(i) * k;
      double t = relay.recordedSeconds(i) + relay.breaker.breakSeconds();
      if (a >= lowest && t >= SHORTEST && t <= longest) {
        add(
            "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" fill=\"none\" stroke=\"#000000\"><title>%s"
                + " cleared %.0f A after %.3f s</title></circle>",
            x(a), y(t), relay.label(), a, t);
      }
    }
  }

  private void legend() {
    double x = LEFT + SIZE + 14;
    double y = TOP + 10;
    for (String each : legend) {
      add(each, x, y, x + 24, y, x + 30, y + 4);
      y += 18;
    }
    add("<circle cx=\"%.0f\" cy=\"%.0f\" r=\"4\" fill=\"none\" stroke=\"#000000\"/>", x + 12, y);
    add("<text x=\"%.0f\" y=\"%.0f\">trip of this run, cleared</text>", x + 30, y + 4);
    y += 18;
    add(
        "<text x=\"%.0f\" y=\"%.0f\">dotted: bolted fault (three-phase, or earth)</text>",
        x, y + 4);
    add("<text x=\"%.0f\" y=\"%.0f\">just beyond the device</text>", x, y + 18);
  }
}
