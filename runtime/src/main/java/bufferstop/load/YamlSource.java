package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
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
import org.yaml.snakeyaml.reader.StreamReader;

/** Turns the text of one YAML file into a tree with places. */
final class YamlSource {
  private static final int DEEPEST = 50;

  private final String file;
  private final String text;
  private final Diagnostics problems;
  private final MarkPlaces places;
  private final Map<Node, Tree> anchored = new IdentityHashMap<>();

  private YamlSource(String file, String text, Diagnostics problems) {
    this.file = file;
    this.text = text;
    this.problems = problems;
    this.places = new MarkPlaces(file, text);
  }

  /**
   * Reads a file's text, its lines ended by line feeds alone.
   *
   * @return its root, or null when it is not YAML or holds nothing; a problem is then reported
   */
  static Tree read(String file, String text, Diagnostics problems) {
    YamlSource source = new YamlSource(file, text, problems);
    return source.isPrintable() ? source.root() : null;
  }

  private boolean isPrintable() {
    int offset = 0;
    while (offset < text.length() && StreamReader.isPrintable(text.codePointAt(offset))) {
      offset += Character.charCount(text.codePointAt(offset));
    }
    if (offset < text.length()) {
      String code = String.format("U+%04X", text.codePointAt(offset));
      problems.add(
          Diagnostic.error(
                  Code.UNREADABLE_FILE,
                  places.ofOffset(offset),
                  "the character " + code + " is not allowed")
              .expected("printable characters")
              .help("leave it out, or write it as an escape in double quotes"));
    }
    return offset == text.length();
  }

  private Tree root() {
    LoaderOptions options = new LoaderOptions();
    options.setNestingDepthLimit(DEEPEST);
    try {
      Node node = new Yaml(new SafeConstructor(options)).compose(new StringReader(text));
      if (node == null) {
        problems.add(
            Diagnostic.error(Code.UNREADABLE_FILE, Position.ofFile(file), "the file is empty")
                .expected("a mapping"));
        return null;
      }
      return tree(node);
    } catch (MarkedYAMLException e) {
      problems.add(notYaml(e));
    } catch (YAMLException e) {
      problems.add(
          Diagnostic.error(
              Code.NOT_YAML,
              Position.ofFile(file),
              "this is not YAML: " + oneLine(e.getMessage())));
    }
    return null;
  }

  private Diagnostic notYaml(MarkedYAMLException e) {
    Mark mark = e.getProblemMark() == null ? e.getContextMark() : e.getProblemMark();
    String context = oneLine(e.getContext());
    String problem = oneLine(e.getProblem());
    Diagnostic wrong =
        Diagnostic.error(Code.NOT_YAML, places.of(mark, 1), "this is not YAML: " + problem)
            .help(hint(context, problem));
    return context.isEmpty() || e.getContextMark() == null
        ? wrong
        : wrong.note(places.of(e.getContextMark(), 1), context);
  }

  private static String hint(String context, String problem) {
    if (context.contains("flow mapping") || context.contains("flow sequence")) {
      return "put quotes around a value that holds commas, brackets or quotes";
    }
    return problem.contains("mapping values are not allowed")
        ? "put quotes around a value that holds a colon and a blank"
        : "";
  }

  private static String oneLine(String message) {
    return message == null ? "" : message.strip().replaceAll("\\s*\\R\\s*", " ");
  }

  private Tree tree(Node node) {
    char first = text.isEmpty() ? ' ' : text.charAt(Math.min(index(node), text.length() - 1));
    if (node.getAnchor() != null) {
      return ofAnchored(node);
    }
    if (first == '!') {
      problems.add(
          Diagnostic.error(
                  Code.NOT_YAML,
                  places.of(node.getStartMark(), 1),
                  "tags are not read in project files")
              .help("leave the tag out; the key tells how its value is read"));
    }
    return plainTree(node);
  }

  /** Says once that anchors are not read, then goes on with what was meant. */
  private Tree ofAnchored(Node node) {
    Tree known = anchored.get(node);
    if (known != null) {
      return known;
    }
    Position position = places.of(node.getStartMark(), node.getAnchor().length() + 1);
    problems.add(
        Diagnostic.error(
                Code.NOT_YAML, position, "anchors and aliases are not read in project files")
            .help("write the value out, or move the section to a file of its own"));
    anchored.put(node, new Tree.Items(List.of(), position)); // for one that holds itself
    Tree tree = plainTree(node);
    anchored.put(node, tree);
    return tree;
  }

  private Tree plainTree(Node node) {
    if (node instanceof MappingNode mapping) {
      return table(mapping);
    }
    if (node instanceof SequenceNode sequence) {
      List<Tree> items = new ArrayList<>();
      for (Node item : sequence.getValue()) {
        items.add(tree(item));
      }
      return new Tree.Items(List.copyOf(items), places.of(node.getStartMark(), 1));
    }
    SourceText source = ScalarPlaces.of(file, text, index(node), (ScalarNode) node);
    boolean empty = source.value().isEmpty();
    return new Tree.Scalar(source, empty ? places.of(node.getStartMark(), 1) : source.whole());
  }

  private Tree table(MappingNode mapping) {
    boolean flow = mapping.getFlowStyle() == FlowStyle.FLOW;
    List<Tree.Entry> entries = new ArrayList<>();
    Map<String, Name> names = new TreeMap<>();
    CutValue cut = null;
    for (NodeTuple tuple : mapping.getValue()) {
      Node value = tuple.getValueNode();
      if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
        problems.add(
            Diagnostic.error(
                    Code.NOT_YAML,
                    places.of(tuple.getKeyNode().getStartMark(), 1),
                    "this is no key")
                .expected("a name, then a colon"));
      } else if (cut == null || !cut.goesOnWith(key, value)) {
        mend(entries, cut);
        boolean added = addEntry(entries, names, key, value);
        cut = flow && added ? CutValue.from(value, text, places) : null;
      }
    }
    mend(entries, cut);
    return new Tree.Table(List.copyOf(entries), flow, places.of(mapping.getStartMark(), 1));
  }

  private boolean addEntry(
      List<Tree.Entry> entries, Map<String, Name> names, ScalarNode key, Node value) {
    Name name = new Name(key.getValue(), places.of(key.getStartMark(), key.getEndMark()));
    Name earlier = names.putIfAbsent(name.text(), name);
    if (earlier == null) {
      entries.add(new Tree.Entry(name, tree(value)));
    } else {
      problems.add(
          Diagnostic.error(
                  Code.GIVEN_TWICE, name.position(), "`" + name.text() + "` is given twice")
              .note(earlier.position(), "first here")
              .help("keep one of them"));
    }
    return earlier == null;
  }

  /** Puts a value that commas cut together again, after a diagnostic. */
  private void mend(List<Tree.Entry> entries, CutValue cut) {
    if (cut == null || !cut.isCut()) {
      return;
    }
    int last = entries.size() - 1;
    Name key = entries.get(last).key();
    String whole = cut.whole();
    String shown = oneLine(whole);
    problems.add(
        Diagnostic.error(
                Code.QUOTES_NEEDED, cut.comma(), "the comma in `" + shown + "` ends the value here")
            .expected("quotes around a value with commas, brackets or quotes in braces")
            .help(
                "write "
                    + key.text()
                    + ": \""
                    + shown.replace("\\", "\\\\").replace("\"", "\\\"")
                    + "\""));
    Position start = cut.start();
    SourceText mended =
        ScalarPlaces.verbatim(file, text, whole, cut.offset(), start.line(), start.column());
    entries.set(last, new Tree.Entry(key, new Tree.Scalar(mended, mended.whole())));
  }

  private int index(Node node) {
    return places.offset(node.getStartMark());
  }
}
