package bufferstop.railway;

import bufferstop.railway.LineData.CrossingData;
import bufferstop.railway.LineData.DischargeData;
import bufferstop.railway.LineData.SignalData;
import bufferstop.railway.LineData.UncouplerData;
import bufferstop.railway.TrackData.Place;
import bufferstop.railway.TrackData.SegmentData;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * A plan of the railway in its present state: distance posts from left to right, segments that lie
 * beside one another in lanes of their own.
 */
final class Plan {
  private static final double WIDTH = 960;
  private static final double MARGIN = 50;
  private static final double TOP = 130;
  private static final double LANE = 95;
  private static final double BODY = 30;
  private static final double ROW = 14;
  private static final int ROWS = 5;
  private static final double LETTER = 6.5; // mean width at this size, generous

  private final Line line;
  private final int[] lane; // by segment
  private final int lanes;
  private double low = Double.POSITIVE_INFINITY;
  private double scale;
  private final double[] rowEnds = new double[ROWS]; // how far each row of labels is taken
  private final Svg svg;

  Plan(Line line) {
    this.line = line;
    double high = Double.NEGATIVE_INFINITY;
    lane = new int[line.track.segments];
    int most = 0;
    for (int s = 0; s < lane.length; s++) {
      SegmentData segment = segment(s);
      low = Math.min(low, segment.fromMetres());
      high = Math.max(high, segment.toMetres());
      lane[s] = freeLane(s);
      most = Math.max(most, lane[s]);
    }
    lanes = most + 1;
    for (EndStop stop : line.track.stops) {
      int end = stop.data.end().end();
      double post = post(end);
      low = end % 2 == 0 ? Math.min(low, post - stop.travel()) : low;
      high = end % 2 == 1 ? Math.max(high, post + stop.travel()) : high;
    }
    scale = (WIDTH - 2 * MARGIN) / (high - low);
    svg = new Svg(WIDTH, TOP + LANE * (lanes - 1) + 58 + ROW * ROWS);
  }

  private SegmentData segment(int s) {
    return line.data.track().segments().get(s);
  }

  private int freeLane(int s) {
    int free = 0;
    for (int other = 0; other < s; other++) {
      boolean overlaps =
          segment(other).fromMetres() < segment(s).toMetres() - 1e-9
              && segment(s).fromMetres() < segment(other).toMetres() - 1e-9;
      if (overlaps && lane[other] == free) {
        free++;
        other = -1; // look again at all of them
      }
    }
    return free;
  }

  String svg() {
    places();
    track();
    posts();
    sensors();
    for (int i = 0; i < line.stock.count; i++) {
      vehicle(i);
    }
    line.track.stops.forEach(this::stop);
    return svg.end();
  }

  private double px(double post) {
    return MARGIN + (post - low) * scale;
  }

  private double py(int s) {
    return TOP + LANE * lane[s];
  }

  private double post(int end) {
    return end % 2 == 0 ? segment(end / 2).fromMetres() : segment(end / 2).toMetres();
  }

  private double post(Place place) {
    return line.data.track().post(place);
  }

  private void track() {
    for (int s = 0; s < lane.length; s++) {
      boolean occupied =
          segment(s).block() >= 0 && line.sensors.blocks.get(segment(s).block()).reportsOccupied();
      svg.line(
          px(segment(s).fromMetres()),
          py(s),
          px(segment(s).toMetres()),
          py(s),
          occupied ? "#c0392b" : "#555",
          3);
      for (int end = 2 * s; end < 2 * s + 2; end++) {
        int next = line.track.next(end);
        if (next != Track.NO_WAY) {
          int entered = next ^ 1;
          svg.line(px(post(end)), py(s), px(post(entered)), py(entered / 2), "#555", 3);
        }
      }
    }
    for (Turnout turnout : line.track.turnouts) {
      int toe = turnout.data.toe().end();
      String state =
          turnout.damaged()
              ? "damaged"
              : turnout.provesNormal() ? "normal" : turnout.provesReverse() ? "reverse" : "moving";
      svg.label(px(post(toe)), py(toe / 2) + 22, "#8a6d3b", turnout.data.name() + " " + state);
    }
  }

  private void posts() {
    double length = (WIDTH - 2 * MARGIN) / scale;
    double unit = 1;
    while (length / unit > 20) {
      unit *= 10;
    }
    unit = length / unit < 4 ? unit / 5 : unit;
    for (double at = Math.ceil(low / unit) * unit; at <= low + length; at += unit) {
      double y = TOP + LANE * (lanes - 1);
      svg.line(px(at), y, px(at), y + 6, "#555", 1);
      svg.label(px(at), y + 20, "#333", String.format(Locale.ROOT, "%.0f m", at));
    }
  }

  private void places() {
    for (Hopper hopper : line.hoppers) {
      double x = px(post(hopper.data().place()));
      double y = py(hopper.data().place().segment()) - 90;
      svg.add(
          "<path d=\"M%.1f %.1fh40l-14 30h-12z\" fill=\"#d8c49a\" stroke=\"#555\"/>", x - 20, y);
      svg.label(
          x,
          y - 6,
          "#333",
          String.format(Locale.ROOT, "%s %.3f kg", hopper.data().name(), hopper.stockKg()));
    }
    for (Discharge discharge : line.discharges) {
      DischargeData at = discharge.data();
      double x = px(post(at.from()));
      double width = Math.max(1, px(post(at.to())) - x);
      svg.box(x, py(at.from().segment()) + 24, width, 8, "#e8b08a");
      svg.label(
          x + width / 2,
          py(at.from().segment()) - 96,
          "#333",
          String.format(Locale.ROOT, "%s %.3f kg", at.name(), discharge.receivedKg()));
    }
    for (UncouplerData uncoupler : line.data.uncouplers()) {
      svg.add(
          "<path d=\"M%.1f %.1fl5 9h-10z\" fill=\"#555\"><title>%s</title></path>",
          px(post(uncoupler.place())), py(uncoupler.place().segment()) + 2, uncoupler.name());
    }
    for (Crossing crossing : line.crossings) {
      CrossingData at = crossing.data;
      double x = px(post(at.from()));
      double y = py(at.from().segment());
      svg.box(x, y - 45, Math.max(3, px(post(at.to())) - x), 90, "#d9d5cc");
      svg.label(x, y + 56, "#333", at.name() + (crossing.down() ? " closed" : " open"));
    }
    for (int n = 0; n < line.data.signals().size(); n++) {
      SignalData at = line.data.signals().get(n);
      double x = px(post(at.place()));
      double y = py(at.place().segment());
      svg.line(x, y, x, y - 50, "#333", 1);
      svg.add(
          "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"5\" fill=\"%s\"><title>%s</title></circle>",
          x, y - 50, line.signals.isClear(n) ? "#3c8c3c" : "#c0392b", at.name());
    }
  }

  private record Sensor(Place at, double post, boolean on, String colour, String text) {}

  private void sensors() {
    List<Sensor> sensors = new ArrayList<>();
    for (Beam beam : line.sensors.beams) {
      Place at = beam.data.place();
      String text = "beam " + beam.data.name();
      sensors.add(new Sensor(at, post(at), beam.reportsBlocked(), "#c0392b", text));
    }
    for (Reed reed : line.sensors.reeds) {
      Place at = reed.data.place();
      sensors.add(new Sensor(at, post(at), reed.on(), "#1f6fb2", "reed " + reed.data.name()));
    }
    for (Counter counter : line.sensors.counters) {
      Place at = counter.data.place();
      String text = "counter " + counter.data.name();
      sensors.add(new Sensor(at, post(at), false, "#5b8c5a", text));
    }
    sensors.sort(Comparator.comparingDouble(Sensor::post));
    for (int n = 0; n < Math.min(60, sensors.size()); n++) {
      mark(sensors.get(n));
    }
  }

  private void mark(Sensor sensor) {
    double x = px(sensor.post);
    double y = py(sensor.at.segment());
    double under = TOP + LANE * (lanes - 1);
    double bottom = under + 58 + ROW * row(x, sensor.text.length() * LETTER);
    svg.line(x, y - BODY - 14, x, bottom - 12, sensor.colour, sensor.on ? 3 : 1);
    svg.label(x, bottom, sensor.colour, sensor.text);
  }

  /** The first row in which a label of that width does not run into the one before it. */
  private int row(double middle, double width) {
    int row = 0;
    while (row < ROWS - 1 && middle - width / 2 < rowEnds[row]) {
      row++;
    }
    rowEnds[row] = middle + width / 2;
    return row;
  }

  private void vehicle(int i) {
    boolean loco = line.isLoco[i];
    String colour = line.stock.derailed[i] ? "#c0392b" : loco ? "#5b8c5a" : "#b7a98f";
    for (int n = 0; n < line.placement.ways(i); n++) {
      int way = line.placement.way(i, n);
      int s = Track.segment(way);
      double one = line.track.offset(way, line.placement.from(i, n));
      double other = line.track.offset(way, line.placement.to(i, n));
      double left = px(line.track.post(s, Math.min(one, other)));
      double width = Math.max(2, Math.abs(one - other) * scale);
      svg.add(
          "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" rx=\"3\" fill=\"%s\" "
              + "stroke=\"#333\"/>",
          left, py(s) - BODY, width, BODY, colour);
    }
    line.placement.locate(i, 0);
    int s = line.placement.foundSegment();
    double x = px(line.track.post(s, line.placement.foundOffset()));
    String name = line.stock.data.get(i).name();
    if (line.stock.count <= 12 || loco) {
      svg.label(
          x,
          py(s) - BODY - 5 - (i % 2) * 12,
          "#333",
          loco
              ? String.format(Locale.ROOT, "%s %.3f m/s", name, Math.abs(line.stock.speed(i)))
              : String.format(Locale.ROOT, "%s %.3f kg", name, line.stock.loadKg[i]));
    }
    coupler(i, s);
  }

  private void coupler(int i, int s) {
    int k = line.stock.at[i];
    if (k + 1 < line.stock.count && line.stock.coupled[k]) {
      line.placement.locate(i, line.stock.half[i] * line.stock.facing[k]);
      double x = px(line.track.post(line.placement.foundSegment(), line.placement.foundOffset()));
      line.placement.locate(line.stock.who[k + 1], 0);
      double to = px(line.track.post(line.placement.foundSegment(), line.placement.foundOffset()));
      double gap = line.stock.gapMetres() * scale;
      svg.line(x, py(s) - BODY / 3, to > x ? x + gap : x - gap, py(s) - BODY / 3, "#333", 4);
    }
  }

  private void stop(EndStop stop) {
    int end = stop.data.end().end();
    int inward = end % 2 == 0 ? -1 : 1;
    double y = py(end / 2);
    double face = px(post(end) + inward * stop.pushed());
    double wall = px(post(end) + inward * stop.travel());
    svg.line(face, y, face, y - 26, "#8a2d1f", 3);
    svg.line(face, y - 13, wall, y - 13, "#8a2d1f", 3);
    svg.line(wall + inward * 3, y, wall + inward * 3, y - 40, "#222", 6);
    svg.label(wall, y - 60, "#333", stop.data.name().replace('_', ' '));
    double gap = Gauges.gap(line.stock, stop);
    if (gap < EndStop.NOBODY) {
      svg.label(wall, y - 47, "#333", String.format(Locale.ROOT, "gap %.3f m", gap));
    }
  }
}
