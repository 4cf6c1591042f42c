package bufferstop.railway;

import bufferstop.railway.TrackData.SegmentData;
import java.util.List;
import java.util.Locale;

/**
 * Distance over time: one line a vehicle, places beside it, blocks shaded while they report that
 * they are occupied, sensors marked while they answer. The distance is that of the posts, so tracks
 * side by side lie on one another.
 */
final class TrainGraph {
  private static final double WIDTH = 960;
  private static final double HEIGHT = 520;
  private static final double LEFT = 130;
  private static final double RIGHT = 20;
  private static final double TOP = 30;
  private static final double BOTTOM = 40;
  private static final List<String> COLOURS =
      List.of("#1f6fb2", "#c0392b", "#5b8c5a", "#8e5fa8", "#b8860b", "#3a3a3a");

  private final Line line;
  private final History history;
  private final Svg svg = new Svg(WIDTH, HEIGHT);
  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;
  private final double from;
  private final double to;

  TrainGraph(Line line, History history) {
    this.line = line;
    this.history = history;
    for (SegmentData segment : line.data.track().segments()) {
      low = Math.min(low, segment.fromMetres());
      high = Math.max(high, segment.toMetres());
    }
    from = history.seconds(0);
    to = history.seconds(history.samples() - 1);
  }

  String svg() {
    blocks();
    axes();
    places();
    for (int n = 0; n < line.sensors.beams.size(); n++) {
      int beam = n;
      sensor(line.sensors.beams.get(n).data.place(), "#c0392b", k -> history.beam(beam, k));
    }
    for (int n = 0; n < line.sensors.reeds.size(); n++) {
      int reed = n;
      sensor(line.sensors.reeds.get(n).data.place(), "#1f6fb2", k -> history.reed(reed, k));
    }
    for (int i = 0; i < history.vehicles; i++) {
      vehicle(i);
    }
    return svg.end();
  }

  private double x(double seconds) {
    return LEFT + (seconds - from) / Math.max(1e-9, to - from) * (WIDTH - LEFT - RIGHT);
  }

  private double y(double post) {
    return HEIGHT - BOTTOM - (post - low) / (high - low) * (HEIGHT - TOP - BOTTOM);
  }

  private void axes() {
    svg.line(LEFT, TOP, LEFT, HEIGHT - BOTTOM, "#555", 1);
    svg.line(LEFT, HEIGHT - BOTTOM, WIDTH - RIGHT, HEIGHT - BOTTOM, "#555", 1);
    double unit = unit(to - from);
    for (double at = Math.ceil(from / unit) * unit; at <= to; at += unit) {
      svg.line(x(at), HEIGHT - BOTTOM, x(at), HEIGHT - BOTTOM + 5, "#555", 1);
      svg.label(x(at), HEIGHT - BOTTOM + 18, "#333", number(at) + " s");
    }
    double metres = unit(high - low);
    for (double at = Math.ceil(low / metres) * metres; at <= high; at += metres) {
      svg.line(LEFT - 5, y(at), LEFT, y(at), "#555", 1);
      svg.label(LEFT - 28, y(at) + 4, "#333", number(at) + " m");
    }
  }

  /** A round step that gives five to twelve marks. */
  private static double unit(double range) {
    double unit = 1e-3;
    while (range / unit > 12) {
      unit *= range / unit > 120 ? 10 : range / unit > 60 ? 5 : range / unit > 24 ? 2 : 2;
    }
    return unit;
  }

  private static String number(double value) {
    double tidy = Math.round(value * 1000) / 1000.0;
    return tidy == Math.rint(tidy)
        ? String.format(Locale.ROOT, "%.0f", tidy)
        : String.format(Locale.ROOT, "%s", tidy);
  }

  private void places() {
    for (EndStop stop : line.track.stops) {
      int end = stop.data.end().end();
      place(post(end / 2, end % 2 == 0 ? 0 : line.track.length[end / 2]), stop.data.name());
    }
    for (Turnout turnout : line.track.turnouts) {
      int end = turnout.data.toe().end();
      place(post(end / 2, end % 2 == 0 ? 0 : line.track.length[end / 2]), turnout.data.name());
    }
    line.hoppers.forEach(h -> place(post(h.data().place()), h.data().name()));
    line.data.signals().forEach(s -> place(post(s.place()), s.name()));
    line.crossings.forEach(c -> place(post(c.data.from()), c.data.name()));
  }

  private double post(int segment, double offset) {
    return line.track.post(segment, offset);
  }

  private double post(TrackData.Place place) {
    return post(place.segment(), place.offsetMetres());
  }

  private void place(double post, String name) {
    svg.line(LEFT, y(post), WIDTH - RIGHT, y(post), "#ddd6c8", 1);
    svg.label(LEFT - 88, y(post) + 4, "#8a6d3b", name);
  }

  private void blocks() {
    for (SegmentData segment : line.data.track().segments()) {
      if (segment.block() >= 0) {
        for (int n = 0; n + 1 < history.samples(); ) {
          int k = n;
          while (k + 1 < history.samples() && history.block(segment.block(), k)) {
            k++;
          }
          if (k > n) {
            double top = y(segment.toMetres());
            double height = y(segment.fromMetres()) - top;
            double left = x(history.seconds(n));
            svg.box(left, top, x(history.seconds(k)) - left, height, "#efe2c4");
          }
          n = k + 1;
        }
      }
    }
  }

  private interface On {
    boolean at(int sample);
  }

  private void sensor(TrackData.Place place, String colour, On on) {
    double y = y(post(place));
    svg.line(LEFT, y, WIDTH - RIGHT, y, "#e6e6e6", 0.5);
    for (int n = 0; n + 1 < history.samples(); ) {
      int k = n;
      while (k + 1 < history.samples() && on.at(k)) {
        k++;
      }
      if (k > n) {
        svg.line(x(history.seconds(n)), y, x(history.seconds(k)), y, colour, 3);
      }
      n = k + 1;
    }
  }

  private void vehicle(int i) {
    String colour = COLOURS.get(i % COLOURS.size());
    StringBuilder path = new StringBuilder();
    for (int n = 0; n < history.samples(); n++) {
      double post = history.post(i, n);
      boolean jumps = n > 0 && Math.abs(post - history.post(i, n - 1)) > (high - low) / 3;
      path.append(n == 0 || jumps ? 'M' : 'L')
          .append(String.format(Locale.ROOT, "%.1f %.1f", x(history.seconds(n)), y(post)));
    }
    svg.add(
        "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\"/>",
        path, colour, line.isLoco[i] ? "2" : "1");
    if (history.vehicles <= 8 || line.isLoco[i]) {
      svg.label(LEFT + 40 + 80 * (i % 10), TOP - 10, colour, line.stock.data.get(i).name());
    }
  }
}
