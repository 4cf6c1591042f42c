package bufferstop.railway;

import bufferstop.railway.LineData.DischargeData;
import bufferstop.railway.LineData.UncouplerData;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** A plan of the line in its present state, as a self-contained SVG document. */
final class Picture {
  private static final double WIDTH = 960;
  private static final double HEIGHT = 250;
  private static final double MARGIN = 40;
  private static final double RAIL = 130;
  private static final double BODY = 30;
  private static final double FIRST_ROW = RAIL + 58;
  private static final double ROW = 14;
  private static final int ROWS = 5;
  private static final double LETTER = 6.5; // mean width at this size, generous

  private final Line line;
  private final double low;
  private final double scale;
  private final double[] rowEnds = new double[ROWS]; // how far each row of labels is taken
  private final StringBuilder svg = new StringBuilder();

  Picture(Line line) {
    this.line = line;
    low = line.pit.wallMetres();
    scale = (WIDTH - 2 * MARGIN) / (line.shed.wallMetres() - low);
  }

  String svg() {
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.0f\" height=\"%.0f\" "
            + "font-family=\"sans-serif\" font-size=\"11\" text-anchor=\"middle\">",
        WIDTH, HEIGHT);
    add("<rect width=\"%.0f\" height=\"%.0f\" fill=\"#fbfaf7\"/>", WIDTH, HEIGHT);
    places();
    track();
    sensors();
    for (int i = 0; i < line.train.count; i++) {
      vehicle(i);
    }
    end(line.pit, "pit end", line.pit.gap(line.train.low(0)));
    end(line.shed, "shed end", line.shed.gap(line.train.high(line.train.count - 1)));
    return svg.append("</svg>\n").toString();
  }

  private void track() {
    add(
        "<path d=\"M%.1f %.1fH%.1f\" stroke=\"#555\" stroke-width=\"3\"/>",
        px(line.pit.wallMetres()), RAIL, px(line.shed.wallMetres()));
    double length = line.shed.wallMetres() - low;
    double unit = Math.max(1, Math.floor(length / 20));
    for (double at = Math.ceil(low / unit) * unit; at <= low + length; at += unit) {
      add(
          "<path d=\"M%.1f %.1fv6\" stroke=\"#555\"/><text x=\"%.1f\" y=\"%.1f\">%.0f m</text>",
          px(at), RAIL, px(at), RAIL + 20, at);
    }
  }

  private void places() {
    if (line.hopper != null) {
      double x = px(line.hopper.data().positionMetres());
      add(
          "<path d=\"M%.1f 40h40l-14 30h-12z\" fill=\"#d8c49a\" stroke=\"#555\"/>"
              + "<text x=\"%.1f\" y=\"34\">hopper %.3f kg</text>",
          x - 20, x, line.hopper.stockKg());
    }
    if (line.discharge != null) {
      DischargeData at = line.discharge.data();
      add(
          "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"8\" fill=\"#e8b08a\"/>"
              + "<text x=\"%.1f\" y=\"34\">discharge %.3f kg</text>",
          px(at.fromMetres()),
          RAIL + 24,
          Math.max(1, (at.toMetres() - at.fromMetres()) * scale),
          px((at.fromMetres() + at.toMetres()) / 2),
          line.discharge.receivedKg());
    }
    UncouplerData uncoupler = line.data.uncoupler();
    if (uncoupler != null) {
      add(
          "<path d=\"M%.1f %.1fl5 9h-10z\" fill=\"#555\"><title>uncoupler</title></path>",
          px(uncoupler.positionMetres()), RAIL + 2);
    }
  }

  private record Sensor(double at, boolean on, String colour, String text) {}

  private void sensors() {
    List<Sensor> sensors = new ArrayList<>();
    for (Beam beam : line.beams) {
      sensors.add(
          new Sensor(
              beam.data.positionMetres(),
              beam.reportsBlocked(),
              "#c0392b",
              "beam " + beam.data.name()));
    }
    for (Reed reed : line.reeds) {
      sensors.add(
          new Sensor(reed.data.positionMetres(), reed.on(), "#1f6fb2", "reed " + reed.data.name()));
    }
    sensors.sort(Comparator.comparingDouble(Sensor::at));
    sensors.forEach(this::mark);
  }

  private void mark(Sensor sensor) {
    double x = px(sensor.at);
    double bottom = FIRST_ROW + ROW * row(x, sensor.text.length() * LETTER);
    add(
        "<path d=\"M%.1f %.1fV%.1f\" stroke=\"%s\" stroke-width=\"%d\"/>"
            + "<text x=\"%.1f\" y=\"%.1f\" fill=\"%s\">%s</text>",
        x,
        RAIL - BODY - 14,
        bottom - 12,
        sensor.colour,
        sensor.on ? 3 : 1,
        x,
        bottom,
        sensor.colour,
        sensor.text);
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
    Train train = line.train;
    boolean loco = i == train.loco;
    double left = px(train.low(i));
    double width = Math.max(2, px(train.high(i)) - left);
    add(
        "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" rx=\"3\" fill=\"%s\" "
            + "stroke=\"#333\"/><text x=\"%.1f\" y=\"%.1f\">%s</text>",
        left,
        RAIL - BODY,
        width,
        BODY,
        loco ? "#5b8c5a" : "#b7a98f",
        px(train.x[i]),
        RAIL - BODY - 5 - (i % 2) * 12,
        loco
            ? String.format(Locale.ROOT, "loco %.3f m/s", train.v[i])
            : String.format(Locale.ROOT, "%s %.3f kg", train.data.get(i).name(), train.loadKg[i]));
    if (i > 0 && train.link[i - 1] == Train.COUPLED) {
      add(
          "<path d=\"M%.1f %.1fH%.1f\" stroke=\"#333\" stroke-width=\"4\"/>",
          px(train.high(i - 1)), RAIL - BODY / 3, left);
    }
  }

  private void end(EndStop stop, String name, double gap) {
    double face = px(stop.faceMetres() + stop.inward * stop.pushed());
    double wall = px(stop.wallMetres());
    add(
        "<path d=\"M%.1f %.1fv-26M%.1f %.1fh%.1f\" stroke=\"#8a2d1f\" stroke-width=\"3\"/>"
            + "<path d=\"M%.1f %.1fv-40\" stroke=\"#222\" stroke-width=\"6\"/>"
            + "<text x=\"%.1f\" y=\"%.1f\">%s</text><text x=\"%.1f\" y=\"%.1f\">gap %.3f m</text>",
        face,
        RAIL,
        face,
        RAIL - 13,
        wall - face,
        wall + stop.inward * 3,
        RAIL,
        wall,
        RAIL - 60,
        name,
        wall,
        RAIL - 47,
        gap);
  }

  private double px(double metres) {
    return MARGIN + (metres - low) * scale;
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values)).append('\n');
  }
}
