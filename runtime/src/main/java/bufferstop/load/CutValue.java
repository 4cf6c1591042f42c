package bufferstop.load;

import bufferstop.model.Position;
import java.util.regex.Pattern;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

/**
 * A plain value in braces, which a comma ends: {@code {when: MAX(a, b) > 3}} reads as {@code when:
 * MAX(a} and a key {@code b) > 3} without a value.
 */
final class CutValue {
  private static final Pattern WORD = Pattern.compile("[A-Za-z_][A-Za-z0-9_]*");

  private final ScalarNode value;
  private final String text;
  private final MarkPlaces places;
  private final int from;
  private int to;
  private boolean cut;

  private CutValue(ScalarNode value, String text, MarkPlaces places) {
    this.value = value;
    this.text = text;
    this.places = places;
    this.from = places.offset(value.getStartMark());
    this.to = places.offset(value.getEndMark());
  }

  /** A value that may turn out to be cut; null when it cannot be. */
  static CutValue from(Node value, String text, MarkPlaces places) {
    boolean plain = value instanceof ScalarNode s && s.isPlain() && !s.getValue().isEmpty();
    return plain && value.getAnchor() == null
        ? new CutValue((ScalarNode) value, text, places)
        : null;
  }

  /** Whether a key is the rest of this value; it is taken in then. */
  boolean goesOnWith(ScalarNode key, Node after) {
    boolean alone = after instanceof ScalarNode s && s.isPlain() && s.getValue().isEmpty();
    boolean rest =
        alone
            && key.isPlain()
            && (opensMore(whole()) || !WORD.matcher(key.getValue()).matches())
            && !key.getValue().isEmpty();
    if (rest) {
      cut = true;
      to = places.offset(key.getEndMark());
    }
    return rest;
  }

  private static boolean opensMore(String value) {
    int depth = 0;
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      depth += c == '(' || c == '[' ? 1 : c == ')' || c == ']' ? -1 : 0;
    }
    return depth > 0;
  }

  boolean isCut() {
    return cut;
  }

  /** As written, with its commas. */
  String whole() {
    return text.substring(from, to);
  }

  int offset() {
    return from;
  }

  Position start() {
    return places.of(value.getStartMark(), 1);
  }

  /** The first comma that cut it. */
  Position comma() {
    return places.ofOffset(text.indexOf(',', places.offset(value.getEndMark())));
  }
}
