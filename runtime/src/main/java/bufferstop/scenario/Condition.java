package bufferstop.scenario;

import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;

/**
 * A condition read twice.
 *
 * @param judged as written: what is true is told by this one; a hazard in it is the value that was
 *     judged in every plant step
 * @param spelled with each hazard replaced by its own condition, for distances and for the names to
 *     show
 */
record Condition(Expression judged, Expression spelled) {

  boolean truth(long[] cells) {
    return judged.truth(cells);
  }

  String text() {
    return judged.source().value();
  }

  /** Every symbol of both, each once. */
  List<Symbol> reads() {
    List<Symbol> all = new ArrayList<>(judged.reads());
    spelled.reads().stream().filter(s -> !all.contains(s)).forEach(all::add);
    return all;
  }
}
