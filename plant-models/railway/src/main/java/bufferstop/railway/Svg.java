package bufferstop.railway;

import java.util.Locale;

/** An SVG document in the making. */
final class Svg {
  private final StringBuilder text = new StringBuilder();

  Svg(double width, double height) {
    add(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.0f\" height=\"%.0f\" "
            + "font-family=\"sans-serif\" font-size=\"11\" text-anchor=\"middle\">",
        width, height);
    add("<rect width=\"%.0f\" height=\"%.0f\" fill=\"#fbfaf7\"/>", width, height);
  }

  void add(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
  }

  void line(double x1, double y1, double x2, double y2, String colour, double width) {
    add(
        "<path d=\"M%.1f %.1fL%.1f %.1f\" stroke=\"%s\" stroke-width=\"%.1f\"/>",
        x1, y1, x2, y2, colour, width);
  }

  void label(double x, double y, String colour, String words) {
    add("<text x=\"%.1f\" y=\"%.1f\" fill=\"%s\">%s</text>", x, y, colour, words);
  }

  void box(double x, double y, double width, double height, String colour) {
    add(
        "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"%s\"/>",
        x, y, width, height, colour);
  }

  /** The whole document. */
  String end() {
    return text.append("</svg>\n").toString();
  }
}
