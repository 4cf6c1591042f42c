package bufferstop.report;

import bufferstop.rig.CauseAndEffect;
import java.util.ArrayList;
import java.util.List;

/** Renders a cause-and-effect matrix. */
public final class MatrixText {
  private static final List<String> ATTRIBUTES =
      List.of("interlock", "kind", "cause", "text", "vote", "delay", "bypass", "reset");

  private final Grid grid;

  /** The matrix to print. */
  public MatrixText(CauseAndEffect matrix) {
    List<String> columns = new ArrayList<>(ATTRIBUTES);
    columns.addAll(matrix.effects());
    grid = new Grid(columns, matrix.rows().stream().map(MatrixText::row).toList());
  }

  private static List<String> row(CauseAndEffect.Row row) {
    List<String> all =
        new ArrayList<>(
            List.of(
                row.interlock(),
                row.kind(),
                row.cause(),
                row.text(),
                row.vote(),
                row.delay(),
                row.bypass(),
                row.reset()));
    all.addAll(row.marks());
    return all;
  }

  /** As CSV, RFC 4180; the legend would be no row of it and is left out. */
  public String csv() {
    return grid.csv();
  }

  /** As a Markdown table with its legend. */
  public String markdown() {
    return grid.markdown() + "\n" + CauseAndEffect.LEGEND + "\n";
  }

  /** As aligned columns with the legend. */
  public String table() {
    return grid.table() + CauseAndEffect.LEGEND + "\n";
  }
}
