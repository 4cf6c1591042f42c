package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Channel;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Retained;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;

/** Resolves permissives, interlocks and trips. */
final class InterlockLinker {
  private final Function<SourceText, Expression> condition;
  private final Layout layout;
  private final Diagnostics problems;
  private final List<Symbol> initiallyTrue = new ArrayList<>();
  private final List<Retained> retained = new ArrayList<>();
  private final Map<String, Map<String, Symbol>> groups = new LinkedHashMap<>();
  private boolean whole; // no condition of the interlock at hand was wrong

  InterlockLinker(Function<SourceText, Expression> condition, Layout layout, Diagnostics problems) {
    this.condition = condition;
    this.layout = layout;
    this.problems = problems;
  }

  /** Step 3 of the scan. */
  Statement link(Controller controller, Outputs outputs) {
    List<Statement> all = new ArrayList<>();
    for (Interlock interlock : controller.interlocks()) {
      Statement statement = statement(interlock, outputs);
      if (statement != null) {
        all.add(statement);
      }
    }
    groups.forEach((group, members) -> all.add(GroupCode.statement(group, members, layout)));
    return Statement.sequence(all);
  }

  /** What is TRUE before the first scan. */
  List<Symbol> initiallyTrue() {
    return initiallyTrue;
  }

  /** Trips that stay so over a warm restart. */
  List<Retained> retained() {
    return retained;
  }

  /** Null after a diagnostic. */
  private Statement statement(Interlock interlock, Outputs outputs) {
    if (interlock.kind() == InterlockKind.PERMISSIVE && !interlock.makesSafe().isEmpty()) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_INTERLOCK,
                  interlock.makesSafe().get(0).position(),
                  "a permissive does not stop what runs, so it makes nothing safe")
              .help("make `" + interlock.name() + "` an interlock or a trip"));
    }
    InterlockCode code = new InterlockCode(interlock, layout);
    whole = true;
    List<CauseCode.Conditions> conditions =
        interlock.causes().stream().map(this::conditions).toList();
    Expression reset = interlock.reset() == null ? null : condition(interlock.reset());
    int[] safe = safeOutputs(interlock, outputs);
    if (!whole || code.isTrip() && reset == null) {
      return null;
    }
    Statement statement = code.statement(conditions, reset, outputs, safe);
    initiallyTrue.addAll(code.initiallyTrue());
    if (interlock.retain()) {
      retained.add(code.retained());
    }
    if (interlock.group() != null) {
      groups
          .computeIfAbsent(
              interlock.group().text().toLowerCase(Locale.ROOT), g -> new LinkedHashMap<>())
          .put(interlock.name(), code.acting());
    }
    return statement;
  }

  private CauseCode.Conditions conditions(Cause cause) {
    Expression bypass = cause.bypass() == null ? null : condition(cause.bypass().when());
    if (cause.vote() == null) {
      return new CauseCode.Conditions(List.of(condition(cause.condition())), List.of(), bypass);
    }
    List<Expression> channels = new ArrayList<>();
    List<Expression> bad = new ArrayList<>();
    for (Channel channel : cause.vote().channels()) {
      channels.add(condition(channel.condition()));
      bad.add(channel.bad() == null ? null : condition(channel.bad()));
    }
    return new CauseCode.Conditions(channels, bad, bypass);
  }

  private Expression condition(SourceText text) {
    Expression read = condition.apply(text);
    whole &= read != null;
    return read == null ? Terms.truth(false) : read;
  }

  private int[] safeOutputs(Interlock interlock, Outputs outputs) {
    List<Integer> numbers = new ArrayList<>();
    for (Name output : interlock.makesSafe()) {
      int number = outputs.number(output.text());
      if (number < 0 && problems.doubts(output.text())) {
        continue;
      }
      if (number < 0) {
        Symbol other = layout.controller().find(output.text());
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME, output.position(), "no output named `" + output.text() + "`")
                .expected("an output")
                .note(
                    other == null ? Position.ofFile("") : other.declared(),
                    other == null ? "" : "`" + other.name() + "` is no output")
                .help(NearNames.question(output.text(), outputs.names())));
      } else {
        numbers.add(number);
      }
    }
    return numbers.stream().mapToInt(Integer::intValue).toArray();
  }
}
