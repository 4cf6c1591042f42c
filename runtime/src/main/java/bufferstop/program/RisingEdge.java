package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.List;

/**
 * Whether a condition has come true in this scan.
 *
 * @param fresh TRUE in the scan of the edge
 * @param last whether the condition held in the last scan; a condition that holds in the first scan
 *     has come true in it, unless this is made TRUE before
 */
record RisingEdge(Symbol fresh, Symbol last) {

  /**
   * Adds the memory and the statements, to be run in every scan.
   *
   * @param hidden begins the names of the memory
   */
  static RisingEdge of(Expression when, String hidden, Layout layout, List<Statement> into) {
    Symbol level = layout.remember(hidden, Type.BOOL);
    Symbol last = layout.remember(hidden + ".last", Type.BOOL);
    Symbol fresh = layout.remember(hidden + ".fresh", Type.BOOL);
    into.add(Terms.set(level, when));
    into.add(Terms.set(fresh, Terms.all(List.of(Terms.read(level), Terms.not(Terms.read(last))))));
    into.add(Terms.set(last, Terms.read(level)));
    return new RisingEdge(fresh, last);
  }
}
