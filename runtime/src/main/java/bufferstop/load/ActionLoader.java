package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Qualifier;
import bufferstop.model.Controller.StatementAction;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Reads the actions of a step: {@code N traction}, {@code L T#3s lamp}. */
final class ActionLoader {
  private static final List<String> QUALIFIERS =
      Stream.of(Qualifier.values()).map(Enum::name).toList();
  private static final List<String> FOR_POINTS =
      Stream.of(Qualifier.values()).filter(q -> !q.isForStatements()).map(Enum::name).toList();

  private final List<StatementAction> statements;
  private final Diagnostics problems;

  /**
   * @param statements actions of the sequence that are statements
   */
  ActionLoader(List<StatementAction> statements, Diagnostics problems) {
    this.statements = statements;
    this.problems = problems;
  }

  List<Action> read(Tree.Entry entry) {
    List<Action> actions = new ArrayList<>();
    for (Tree item : entry == null ? List.<Tree>of() : TableReader.itemsOf(entry.value())) {
      if (item instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
        Action action = action(scalar.text());
        if (action != null) {
          actions.add(action);
        }
      } else {
        problems.add(
            Diagnostic.error(
                    Code.BAD_ACTION,
                    TableReader.place(new Tree.Entry(entry.key(), item)),
                    "this is no action")
                .expected("a qualifier and a point: N traction"));
      }
    }
    return List.copyOf(actions);
  }

  /** A point alone means N, as in the standard. */
  private Action action(SourceText text) {
    int blank = text.value().indexOf(' ');
    if (blank < 0) {
      return new Action(Qualifier.N, 0, name(text));
    }
    SourceText word = text.part(0, blank);
    SourceText rest = after(text, blank);
    String upper = word.value().toUpperCase(Locale.ROOT);
    if (!QUALIFIERS.contains(upper)) {
      problems.add(noQualifier(word, upper));
      return null;
    }
    Qualifier qualifier = Qualifier.valueOf(upper);
    boolean isStatements =
        statements.stream().anyMatch(s -> s.name().text().equalsIgnoreCase(rest.value()));
    if (qualifier.isForStatements() && !isStatements && !looksLikeTime(rest.value())) {
      problems.add(onlyForStatements(word, upper));
      return null;
    }
    return qualifier.isTimed() ? timed(qualifier, word, rest) : untimed(qualifier, rest);
  }

  private static Diagnostic noQualifier(SourceText word, String upper) {
    return Diagnostic.error(Code.BAD_ACTION, word.whole(), "no action qualifier `" + upper + "`")
        .expected(String.join(", ", QUALIFIERS))
        .help(NearNames.question(upper, QUALIFIERS));
  }

  private Diagnostic onlyForStatements(SourceText word, String upper) {
    String declared =
        statements.isEmpty()
            ? "this sequence has none under `actions`"
            : "those of this sequence are "
                + String.join(", ", statements.stream().map(s -> s.name().text()).toList());
    return Diagnostic.error(
            Code.BAD_ACTION, word.whole(), "`" + upper + "` is for actions that are statements")
        .expected("for an action on a point: " + String.join(", ", FOR_POINTS))
        .help(declared + "; on a point `P` is TRUE in the scan in which the step becomes active");
  }

  private Action untimed(Qualifier qualifier, SourceText rest) {
    int end = endOfWord(rest);
    if (!looksLikeTime(rest.value().substring(0, end))) {
      return new Action(qualifier, 0, name(rest));
    }
    String timed =
        Stream.of(Qualifier.values())
            .filter(Qualifier::isTimed)
            .map(Enum::name)
            .collect(Collectors.joining(", "));
    problems.add(
        Diagnostic.error(Code.TIME_NOT_WANTED, rest.at(0, end), "`" + qualifier + "` takes no time")
            .expected("the name of a point")
            .help("a time belongs to " + timed));
    return null;
  }

  private Action timed(Qualifier qualifier, SourceText word, SourceText rest) {
    int end = endOfWord(rest);
    boolean alone = end == rest.value().length();
    if (alone && looksLikeTime(rest.value())) {
      problems.add(
          Diagnostic.error(Code.BAD_ACTION, rest.whole(), "this action names no point")
              .expected("after the time a BOOL output or internal point"));
      return null;
    }
    if (alone) {
      problems.add(
          Diagnostic.error(Code.TIME_NOT_WANTED, word.whole(), "`" + qualifier + "` needs a time")
              .expected("a time, then the point: " + qualifier + " T#3s " + rest.value()));
      return null;
    }
    Long micros = time(qualifier, rest.part(0, end));
    return micros == null ? null : new Action(qualifier, micros, name(after(rest, end)));
  }

  /** In microseconds, above 0; null after a diagnostic. */
  private Long time(Qualifier qualifier, SourceText written) {
    if (!looksLikeTime(written.value())) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_LITERAL, written.whole(), "`" + written.value() + "` is no time")
              .expected("after `" + qualifier + "` a TIME literal: T#3s"));
      return null;
    }
    Long micros = ExpressionReader.literal(written, Type.TIME, problems);
    if (micros != null && micros <= 0) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  written.whole(),
                  "`" + qualifier + "` lasts " + written.value())
              .expected("a time above T#0s"));
      return null;
    }
    return micros;
  }

  private static boolean looksLikeTime(String word) {
    return word.contains("#");
  }

  private static int endOfWord(SourceText text) {
    int blank = text.value().indexOf(' ');
    return blank < 0 ? text.value().length() : blank;
  }

  /** What follows after blanks; a scalar ends in none. */
  private static SourceText after(SourceText text, int blank) {
    int from = blank;
    while (from < text.value().length() - 1 && text.value().charAt(from) == ' ') {
      from++;
    }
    return text.part(from, text.value().length());
  }

  private static Name name(SourceText text) {
    return new Name(text.value(), text.whole());
  }
}
