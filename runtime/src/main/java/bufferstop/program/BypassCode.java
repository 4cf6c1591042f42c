package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * The bypass of one cause. It begins at a rising edge of its key while no other of the interlock is
 * on, and ends with the key or at its limit. A key that is TRUE at the start is no edge. Source of
 * the rules: timed, logged, alarmed, one at a time, never active after a start [common practice, no
 * source].
 */
final class BypassCode {
  private final Symbol bypassed;
  private final Symbol wouldAct;
  private final Symbol times;
  private final Symbol timesWould;
  private final Symbol key;
  private final Symbol lastKey;
  private final Symbol since;

  /**
   * @param cause {@code INTERLOCK.CAUSE}
   */
  BypassCode(String cause, Layout layout) {
    bypassed = layout.controller().find(cause + ".bypassed");
    wouldAct = layout.controller().find(cause + ".would_act");
    times = layout.controller().find(cause + ".bypasses");
    timesWould = layout.controller().find(cause + ".would_acts");
    key = layout.remember(cause + "#key", Type.BOOL);
    lastKey = layout.remember(cause + "#last_key", Type.BOOL);
    since = layout.remember(cause + "#since", Type.TIME);
  }

  /** TRUE before the first scan, so that no bypass begins with it. */
  Symbol lastKey() {
    return lastKey;
  }

  Expression isOn() {
    return Terms.read(bypassed);
  }

  List<Statement> ending(Expression when, long atMostMicros) {
    Expression over = Terms.atLeast(Terms.elapsed(since), Terms.micros(atMostMicros));
    Expression ends = Terms.any(List.of(Terms.not(Terms.read(key)), over));
    return List.of(Terms.set(key, when), Terms.when(ends, List.of(Terms.set(bypassed, false))));
  }

  /**
   * To come after the ends of all bypasses of the interlock.
   *
   * @param anyOn whether one of them is on
   */
  List<Statement> beginning(Expression anyOn) {
    Expression edge =
        Terms.all(List.of(Terms.read(key), Terms.not(Terms.read(lastKey)), Terms.not(anyOn)));
    List<Statement> begins = new ArrayList<>();
    begins.add(Terms.set(bypassed, true));
    begins.add(Terms.set(since, Terms.now()));
    begins.add(Terms.set(times, Terms.next(times)));
    return List.of(Terms.when(edge, begins), Terms.set(lastKey, Terms.read(key)));
  }

  /**
   * Notes that the cause would have acted.
   *
   * @param asks whether it asks
   */
  List<Statement> noting(Symbol asks) {
    Expression would = Terms.all(List.of(Terms.read(asks), isOn()));
    Expression fresh =
        Terms.all(List.of(Terms.read(asks), isOn(), Terms.not(Terms.read(wouldAct))));
    return List.of(
        Terms.when(fresh, List.of(Terms.set(timesWould, Terms.next(timesWould)))),
        Terms.set(wouldAct, would));
  }
}
