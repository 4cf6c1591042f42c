package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.List;

/** Whether a condition has held for a time without a break; in the first scan at or after it. */
final class Lasting {
  private Lasting() {}

  /**
   * Writes a cell; at once TRUE with the condition when the time is 0.
   *
   * @param hidden begins the names of the memory
   */
  static List<Statement> write(
      Symbol target, Expression when, long micros, String hidden, Layout layout) {
    if (micros == 0) {
      return List.of(Terms.set(target, when));
    }
    Symbol timing = layout.remember(hidden + ".timing", Type.BOOL);
    Symbol since = layout.remember(hidden + ".since", Type.TIME);
    Expression passed = Terms.atLeast(Terms.elapsed(since), Terms.micros(micros));
    Statement begins =
        Terms.when(
            Terms.not(Terms.read(timing)),
            List.of(Terms.set(timing, true), Terms.set(since, Terms.now())));
    return List.of(
        Terms.choose(
            when,
            List.of(begins, Terms.set(target, passed)),
            List.of(Terms.set(timing, false), Terms.set(target, false))));
  }
}
