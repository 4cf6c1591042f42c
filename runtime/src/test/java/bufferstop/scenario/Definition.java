package bufferstop.scenario;

import bufferstop.model.Scenario.Interval;
import bufferstop.scenario.Formula.Trace;
import java.util.function.IntToDoubleFunction;

/**
 * The definitions of control-semantics 8.2 and 8.3, evaluated slowly over a whole trace: a value is
 * an interval that holds every value the formula could still take, what lies past the end being
 * minus to plus infinity. Sources: Donzé and Maler 2010; Deshmukh et al. 2017 [from memory, not
 * re-read].
 *
 * @param unit in which distances are taken; null for truth alone, plus or minus infinity
 */
record Definition(Trace trace, String unit) {

  /** What a formula may still come to. */
  record Value(double low, double high) {
    private Value min(Value other) {
      return new Value(Math.min(low, other.low), Math.min(high, other.high));
    }

    private Value max(Value other) {
      return new Value(Math.max(low, other.low), Math.max(high, other.high));
    }
  }

  private static final double INFINITE = Double.POSITIVE_INFINITY;
  private static final Value TRUE = new Value(INFINITE, INFINITE);
  private static final Value FALSE = new Value(-INFINITE, -INFINITE);
  private static final Value UNKNOWN = new Value(-INFINITE, INFINITE);

  /** The value at a sample. */
  private interface At {
    Value at(int sample);
  }

  private int count() {
    return trace.t().length;
  }

  private long end() {
    return trace.t()[count() - 1];
  }

  private At atom(Formula formula) {
    IntToDoubleFunction value =
        unit == null
            ? i -> formula.holds(i) ? INFINITE : -INFINITE
            : i -> formula.robustness(i, unit);
    return i -> new Value(value.applyAsDouble(i), value.applyAsDouble(i));
  }

  private At not(Formula formula) {
    return i -> {
      Value value = atom(formula).at(i);
      return new Value(-value.high, -value.low);
    };
  }

  /** W(i,a,b) of 8.2; b of 0 in an interval of the whole run ends with the trace. */
  private Value fold(boolean all, long from, long to, At inner) {
    Value result = all ? TRUE : FALSE;
    for (int j = 0; j < count(); j++) {
      if (trace.t()[j] >= from && trace.t()[j] <= to) {
        result = all ? result.min(inner.at(j)) : result.max(inner.at(j));
      }
    }
    return to <= end() ? result : all ? result.min(UNKNOWN) : result.max(UNKNOWN);
  }

  private long to(Interval during) {
    return during.toMicros() == 0 ? end() : during.toMicros();
  }

  Value always(Formula that, Interval during) {
    return fold(true, during.fromMicros(), to(during), atom(that));
  }

  Value never(Formula that, Interval during) {
    return fold(true, during.fromMicros(), to(during), not(that));
  }

  Value eventually(Formula that, Interval during) {
    return fold(false, during.fromMicros(), to(during), atom(that));
  }

  private Value until(At hold, At until, Interval during) {
    Value result = FALSE;
    Value held = TRUE;
    for (int j = 0; j < count(); j++) {
      if (during.holds(trace.t()[j])) {
        result = result.max(until.at(j).min(held));
      }
      held = held.min(hold.at(j));
    }
    return to(during) <= end() ? result : result.max(UNKNOWN.min(held));
  }

  Value until(Formula hold, Formula until, Interval during) {
    return until(atom(hold), atom(until), during);
  }

  /** (not P) W S = ((not P) U S) or G (not P). */
  Value precedence(Formula never, Formula before) {
    return until(not(never), atom(before), Interval.WHOLE).max(never(never, Interval.WHOLE));
  }

  Value response(Formula when, long after, long within, Formula that) {
    return window(not(when), false, after, within, that);
  }

  Value persistence(Formula when, long after, long lasting, Formula that) {
    return window(not(when), true, after, lasting, that);
  }

  Value stable(Formula that, long lasting) {
    return window(
        i -> that.holds(i) && (i == 0 || !that.holds(i - 1)) ? FALSE : TRUE,
        true,
        0,
        lasting,
        that);
  }

  private Value window(At notWhen, boolean all, long after, long within, Formula that) {
    Value result = TRUE;
    for (int i = 0; i < count(); i++) {
      long now = trace.t()[i];
      result = result.min(notWhen.at(i).max(fold(all, now + after, now + within, atom(that))));
    }
    return result;
  }
}
