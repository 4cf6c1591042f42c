package bufferstop.report;

import java.util.List;

/** Rows of text under headings, printed in three ways. */
final class Grid {
  private final List<String> columns;
  private final List<List<String>> rows;

  Grid(List<String> columns, List<List<String>> rows) {
    this.columns = columns;
    this.rows = rows;
  }

  /** As CSV, RFC 4180. */
  String csv() {
    StringBuilder out = new StringBuilder();
    csvRow(columns, out);
    rows.forEach(row -> csvRow(row, out));
    return out.toString();
  }

  private static void csvRow(List<String> row, StringBuilder out) {
    out.append(String.join(",", row.stream().map(Grid::quoted).toList())).append("\r\n");
  }

  private static String quoted(String value) {
    boolean plain = value.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    return plain ? value : "\"" + value.replace("\"", "\"\"") + "\"";
  }

  /** As a Markdown table; columns without any value are left out. */
  String markdown() {
    StringBuilder out = new StringBuilder();
    List<String> ruler = columns.stream().map(c -> "---").toList();
    for (List<String> row : List.of(columns, ruler)) {
      markdownRow(row, out);
    }
    rows.forEach(row -> markdownRow(row, out));
    return out.toString();
  }

  private void markdownRow(List<String> row, StringBuilder out) {
    out.append('|');
    for (int i = 0; i < row.size(); i++) {
      int column = i;
      if (rows.stream().anyMatch(r -> !r.get(column).isEmpty())) {
        out.append(' ').append(escaped(row.get(i))).append(" |");
      }
    }
    out.append('\n');
  }

  private static String escaped(String value) {
    return value.replace("|", "\\|").replaceAll("\\R", " ");
  }

  /** As aligned columns; columns without any value are left out. */
  String table() {
    int[] widths = new int[columns.size()];
    for (List<String> row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    StringBuilder out = new StringBuilder();
    line(columns, widths, out);
    rows.forEach(row -> line(row, widths, out));
    return out.toString();
  }

  private void line(List<String> row, int[] widths, StringBuilder out) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < widths.length; i++) {
      if (widths[i] > 0) {
        int width = Math.max(widths[i], columns.get(i).length());
        line.append(row.get(i)).append(" ".repeat(width - row.get(i).length() + 2));
      }
    }
    out.append(line.toString().stripTrailing()).append('\n');
  }
}
