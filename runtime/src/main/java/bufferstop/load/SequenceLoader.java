package bufferstop.load;

import bufferstop.model.Controller.Abort;
import bufferstop.model.Controller.Action;
import bufferstop.model.Controller.Qualifier;
import bufferstop.model.Controller.Sequence;
import bufferstop.model.Controller.Step;
import bufferstop.model.Controller.Transition;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** Reads sequences: steps with their actions, transitions, abort. */
final class SequenceLoader {
  private static final List<String> QUALIFIERS =
      Stream.of(Qualifier.values()).map(Enum::name).toList();

  private final Diagnostics problems;

  SequenceLoader(Diagnostics problems) {
    this.problems = problems;
  }

  List<Sequence> read(Tree section) {
    List<Sequence> sequences = new ArrayList<>();
    TableReader table = section == null ? null : TableReader.open(section, "sequences", problems);
    if (table != null) {
      for (Tree.Entry entry : table.entries()) {
        TableReader reader = TableReader.open(entry.value(), "a sequence", problems);
        if (reader != null && Identifiers.check(entry.key(), problems)) {
          sequences.add(sequence(entry.key(), reader));
        }
      }
    }
    return List.copyOf(sequences);
  }

  private Sequence sequence(Name name, TableReader reader) {
    List<Step> steps = steps(reader.required("steps", name.position()));
    List<Transition> transitions = transitions(reader.required("transitions", name.position()));
    Tree abortTree = reader.tree("abort");
    Abort abort = abortTree == null ? null : abort(abortTree);
    reader.finish();
    long initial = steps.stream().filter(Step::initial).count();
    if (initial != 1 && !steps.isEmpty()) {
      problems.add(
          Diagnostic.error(
                  name.position(), "`" + name.text() + "` has " + initial + " initial steps")
              .expected("exactly one step with initial: TRUE"));
    }
    return new Sequence(name.text(), steps, transitions, abort, name.position());
  }

  private Abort abort(Tree tree) {
    TableReader reader = TableReader.open(tree, "an abort", problems);
    if (reader == null) {
      return null;
    }
    SourceText when = reader.requiredText("when", reader.position());
    Name to = reader.requiredName("to", reader.position());
    reader.finish();
    return when == null || to == null ? null : new Abort(when, to);
  }

  private List<Step> steps(Tree tree) {
    List<Step> steps = new ArrayList<>();
    TableReader table = tree == null ? null : TableReader.open(tree, "steps", problems);
    if (table != null) {
      for (Tree.Entry entry : table.entries()) {
        TableReader reader = TableReader.open(entry.value(), "a step", problems);
        if (reader != null && Identifiers.check(entry.key(), problems)) {
          steps.add(
              new Step(
                  entry.key().text(),
                  reader.bool("initial", false),
                  actions(reader.tree("do")),
                  reader.time("within", 0, 1),
                  reader.words("text"),
                  entry.key().position()));
          reader.finish();
        }
      }
    }
    return List.copyOf(steps);
  }

  private List<Action> actions(Tree tree) {
    List<Action> actions = new ArrayList<>();
    List<Tree> items =
        tree == null ? List.of() : tree instanceof Tree.Items i ? i.items() : List.of(tree);
    for (Tree item : items) {
      Action action = item instanceof Tree.Scalar scalar ? action(scalar.text()) : null;
      if (action != null) {
        actions.add(action);
      } else if (!(item instanceof Tree.Scalar)) {
        problems.add(
            Diagnostic.error(item.position(), "an action is a single value")
                .expected("a qualifier and a point: N traction"));
      }
    }
    return List.copyOf(actions);
  }

  /** {@code N traction}; a point alone means N, as in the standard. */
  private Action action(SourceText text) {
    String value = text.value();
    int blank = value.indexOf(' ');
    if (blank < 0) {
      return value.isEmpty() ? null : new Action(Qualifier.N, new Name(value, text.whole()));
    }
    String word = value.substring(0, blank).toUpperCase(Locale.ROOT);
    int from = blank;
    while (from < value.length() - 1 && value.charAt(from) == ' ') {
      from++;
    }
    Position place = text.at(from, value.length());
    if (!QUALIFIERS.contains(word)) {
      problems.add(
          Diagnostic.error(text.at(0, blank), "no action qualifier `" + word + "`")
              .expected(String.join(", ", QUALIFIERS))
              .help(NearNames.question(word, QUALIFIERS)));
      return null;
    }
    return new Action(Qualifier.valueOf(word), new Name(value.substring(from), place));
  }

  private List<Transition> transitions(Tree tree) {
    List<Transition> transitions = new ArrayList<>();
    if (tree != null && !(tree instanceof Tree.Items)) {
      problems.add(
          Diagnostic.error(tree.position(), "`transitions` is no list")
              .expected("a list of {from: , to: , when: }"));
    }
    if (tree instanceof Tree.Items items) {
      for (Tree item : items.items()) {
        TableReader reader = TableReader.open(item, "a transition", problems);
        if (reader != null) {
          List<Name> from = reader.requiredNames("from", reader.position());
          List<Name> to = reader.requiredNames("to", reader.position());
          SourceText when = reader.requiredText("when", reader.position());
          reader.finish();
          if (when != null) {
            transitions.add(new Transition(from, to, when, reader.position()));
          }
        }
      }
    }
    return List.copyOf(transitions);
  }
}
