package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import org.yaml.snakeyaml.DumperOptions.FlowStyle;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** Turns the text of one YAML file into a tree with places. */
final class YamlSource {
  private static final int DEEPEST = 50;

  private final String file;
  private final String text;
  private final Diagnostics problems;
  private final boolean beyondBmp; // marks count code points, strings count chars

  private YamlSource(String file, String text, Diagnostics problems) {
    this.file = file;
    this.text = text;
    this.problems = problems;
    this.beyondBmp = text.chars().anyMatch(c -> Character.isSurrogate((char) c));
  }

  /**
   * Reads a file's text.
   *
   * @return its root, or null when it is not YAML or holds nothing; a problem is then reported
   */
  static Tree read(String file, String text, Diagnostics problems) {
    return new YamlSource(file, text, problems).root();
  }

  private Tree root() {
    LoaderOptions options = new LoaderOptions();
    options.setNestingDepthLimit(DEEPEST);
    try {
      Node node = new Yaml(new SafeConstructor(options)).compose(new StringReader(text));
      if (node == null) {
        problems.add(
            Diagnostic.error(Position.ofFile(file), "the file is empty").expected("a mapping"));
        return null;
      }
      return tree(node);
    } catch (MarkedYAMLException e) {
      Mark mark = e.getProblemMark() == null ? e.getContextMark() : e.getProblemMark();
      problems.add(
          Diagnostic.error(at(mark, 1), "this is not YAML: " + oneLine(e.getProblem()))
              .help(e.getContext() == null ? "" : oneLine(e.getContext())));
    } catch (YAMLException e) {
      problems.add(
          Diagnostic.error(Position.ofFile(file), "this is not YAML: " + oneLine(e.getMessage())));
    }
    return null;
  }

  private static String oneLine(String message) {
    return message == null ? "" : message.strip().replaceAll("\\s*\\R\\s*", " ");
  }

  private Tree tree(Node node) {
    if (node.getAnchor() != null) {
      problems.add(
          Diagnostic.error(
                  at(node.getStartMark(), 1), "anchors and aliases are not read in project files")
              .help("write the value out, or move the section to a file of its own"));
      return new Tree.Scalar(SourceText.onLine("", file, 1, 1), at(node.getStartMark(), 1));
    }
    if (node instanceof MappingNode mapping) {
      return table(mapping);
    }
    if (node instanceof SequenceNode sequence) {
      List<Tree> items = new ArrayList<>();
      for (Node item : sequence.getValue()) {
        items.add(tree(item));
      }
      return new Tree.Items(List.copyOf(items), at(node.getStartMark(), 1));
    }
    return scalar((ScalarNode) node);
  }

  private Tree.Scalar scalar(ScalarNode node) {
    SourceText source = ScalarPlaces.of(file, text, index(node.getStartMark()), node);
    return new Tree.Scalar(source, source.whole());
  }

  private Tree table(MappingNode mapping) {
    boolean flow = mapping.getFlowStyle() == FlowStyle.FLOW;
    List<Tree.Entry> entries = new ArrayList<>();
    for (NodeTuple tuple : mapping.getValue()) {
      if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
        problems.add(
            Diagnostic.error(at(tuple.getKeyNode().getStartMark(), 1), "this key is not a word")
                .expected("a name, then a colon"));
      } else if (!flow || !mendCutExpression(entries, key, tuple.getValueNode())) {
        addEntry(entries, key, tuple.getValueNode());
      }
    }
    return new Tree.Table(List.copyOf(entries), flow, at(mapping.getStartMark(), 1));
  }

  private void addEntry(List<Tree.Entry> entries, ScalarNode key, Node value) {
    Name name = new Name(key.getValue(), at(key.getStartMark(), key.getValue().length()));
    for (Tree.Entry earlier : entries) {
      if (earlier.key().text().equals(name.text())) {
        problems.add(
            Diagnostic.error(name.position(), "`" + name.text() + "` is given twice")
                .note(earlier.key().position(), "first here")
                .help("keep one of them"));
        return;
      }
    }
    entries.add(new Tree.Entry(name, tree(value)));
  }

  /**
   * In braces a comma ends a value: {@code {when: MAX(a, b) > 3}} reads as {@code when: MAX(a} and
   * a key {@code b) > 3} without value. Says so once and goes on with what was meant.
   */
  private boolean mendCutExpression(List<Tree.Entry> entries, ScalarNode key, Node value) {
    boolean empty = value instanceof ScalarNode s && s.getValue().isEmpty() && s.isPlain();
    if (entries.isEmpty() || !empty || !key.isPlain()) {
      return false;
    }
    Tree.Entry last = entries.get(entries.size() - 1);
    if (!(last.value() instanceof Tree.Scalar cut) || !opensMore(cut.value())) {
      return false;
    }
    SourceText before = cut.text();
    int line = before.lines()[0];
    int column = before.columns()[0];
    int from = offsetOf(line, column);
    String whole = text.substring(from, index(key.getEndMark()));
    SourceText mended = ScalarPlaces.verbatim(file, text, whole, from, line, column);
    problems.add(
        Diagnostic.error(cut.position(), "the comma in `" + whole + "` ends the value here")
            .expected("an expression with commas, brackets or quotes in quotes")
            .help("write " + last.key().text() + ": \"" + whole.replace("\"", "\\\"") + "\""));
    entries.set(
        entries.size() - 1, new Tree.Entry(last.key(), new Tree.Scalar(mended, mended.whole())));
    return true;
  }

  private static boolean opensMore(String value) {
    int depth = 0;
    for (char c : value.toCharArray()) {
      depth += c == '(' || c == '[' ? 1 : c == ')' || c == ']' ? -1 : 0;
    }
    return depth > 0;
  }

  private int offsetOf(int line, int column) {
    int offset = 0;
    for (int i = 1; i < line; i++) {
      offset = text.indexOf('\n', offset) + 1;
    }
    return offset + column - 1;
  }

  private int index(Mark mark) {
    return beyondBmp ? text.offsetByCodePoints(0, mark.getIndex()) : mark.getIndex();
  }

  /** YAML marks count from 0; this is the one place that makes them count from 1. */
  private Position at(Mark mark, int length) {
    return mark == null
        ? Position.ofFile(file)
        : new Position(file, mark.getLine() + 1, mark.getColumn() + 1, Math.max(1, length));
  }
}
