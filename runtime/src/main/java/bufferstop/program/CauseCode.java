package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Vote;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;

/**
 * When one cause asks, and when it acts: it asks when its condition or enough channels of its vote
 * do, for as long as its delay says; it acts when it asks and is not bypassed. Source: MooN voting,
 * IEC 61508-6 and IEC 61511-1:2016, clause 3 [from memory, not re-read]; how a channel of bad
 * quality counts [common practice, no source].
 */
final class CauseCode {
  private final Cause cause;
  private final boolean asksWhenTrue; // a trip; else what must hold asks when it does not
  private final Layout layout;
  private final String hidden;
  private final Symbol asks;
  private final Symbol acts;
  private final Symbol differ; // null when nobody asks
  private final BypassCode bypass; // null when it cannot be

  /** Conditions of a cause; {@code bad} has a null where a channel's quality is not known. */
  record Conditions(List<Expression> channels, List<Expression> bad, Expression bypass) {}

  CauseCode(String interlock, Cause cause, boolean asksWhenTrue, Layout layout) {
    this.cause = cause;
    this.asksWhenTrue = asksWhenTrue;
    this.layout = layout;
    String name = interlock + "." + cause.name();
    hidden = interlock + "#" + cause.name();
    acts = layout.remember(hidden, Type.BOOL);
    bypass = cause.bypass() == null ? null : new BypassCode(name, layout);
    asks = bypass == null ? acts : layout.remember(hidden + ".asks", Type.BOOL);
    differ = layout.controller().find(name + ".differ");
  }

  /** Whether it acts in this scan. */
  Symbol acts() {
    return acts;
  }

  /** Null when it has none. */
  BypassCode bypass() {
    return bypass;
  }

  /** Whether it asks. */
  List<Statement> asking(Conditions conditions) {
    List<Statement> all = new ArrayList<>();
    Expression raw =
        cause.vote() == null
            ? asked(conditions.channels.get(0))
            : voted(cause.vote(), conditions, all);
    all.addAll(Lasting.write(asks, raw, cause.delayMicros(), hidden, layout));
    if (bypass != null) {
      all.addAll(bypass.ending(conditions.bypass, cause.bypass().atMostMicros()));
    }
    return all;
  }

  /**
   * Whether it acts.
   *
   * @param anyBypass whether any cause of the interlock is bypassed; null when none can be
   */
  List<Statement> acting(Expression anyBypass) {
    if (bypass == null) {
      return List.of();
    }
    List<Statement> all = new ArrayList<>(bypass.beginning(anyBypass));
    all.addAll(bypass.noting(asks));
    all.add(Terms.set(acts, Terms.all(List.of(Terms.read(asks), Terms.not(bypass.isOn())))));
    return all;
  }

  private Expression asked(Expression condition) {
    return asksWhenTrue ? condition : Terms.not(condition);
  }

  /** Goes through the channels and keeps whether at least one, two, ... ask. */
  private Expression voted(Vote vote, Conditions conditions, List<Statement> all) {
    List<Symbol> atLeast = new ArrayList<>();
    for (int k = 1; k <= vote.needed(); k++) {
      atLeast.add(layout.remember(hidden + ".at_least_" + k, Type.BOOL));
    }
    atLeast.forEach(count -> all.add(Terms.set(count, false)));
    List<Expression> high = new ArrayList<>(); // channels of good quality that ask
    List<Expression> low = new ArrayList<>(); // and those that do not
    for (int i = 0; i < vote.channels().size(); i++) {
      String name = hidden + "." + vote.channels().get(i).name();
      Symbol asking = layout.remember(name, Type.BOOL);
      all.add(Terms.set(asking, asked(conditions.channels.get(i))));
      Expression counts = Terms.read(asking);
      List<Expression> good = List.of();
      if (conditions.bad.get(i) != null) {
        Symbol bad = layout.remember(name + ".bad", Type.BOOL);
        all.add(Terms.set(bad, conditions.bad.get(i)));
        good = List.of(Terms.not(Terms.read(bad)));
        counts =
            vote.badAsks()
                ? Terms.any(List.of(counts, Terms.read(bad)))
                : Terms.all(List.of(counts, Terms.not(Terms.read(bad))));
      }
      count(counts, atLeast, all);
      high.add(with(Terms.read(asking), good));
      low.add(with(Terms.not(Terms.read(asking)), good));
    }
    if (differ != null) {
      Expression differs = Terms.all(List.of(Terms.any(high), Terms.any(low)));
      all.addAll(Lasting.write(differ, differs, vote.differMicros(), hidden + ".differ", layout));
    }
    return Terms.read(atLeast.get(vote.needed() - 1));
  }

  private static Expression with(Expression first, List<Expression> others) {
    List<Expression> all = new ArrayList<>(List.of(first));
    all.addAll(others);
    return Terms.all(all);
  }

  private static void count(Expression asks, List<Symbol> atLeast, List<Statement> all) {
    List<Statement> one = new ArrayList<>();
    for (int k = atLeast.size() - 1; k > 0; k--) {
      Expression before = Terms.read(atLeast.get(k - 1));
      one.add(Terms.set(atLeast.get(k), Terms.any(List.of(Terms.read(atLeast.get(k)), before))));
    }
    one.add(Terms.set(atLeast.get(0), true));
    all.add(Terms.when(asks, one));
  }
}
