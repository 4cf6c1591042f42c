package bufferstop.testkit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Reads the plain part of YAML that a settings file needs: nested block mappings of {@code key:
 * value}, indented by spaces, with comments; mappings in braces on one line; and lists of those,
 * each behind a dash or all of them in brackets on one line. Quotes, anchors and texts over several
 * lines are refused. Tests only; the host has the full reader.
 */
public final class SettingsText {
  private record Level(int indent, Map<String, Object> map, String key) {}

  private SettingsText() {}

  /**
   * Reads a text.
   *
   * @return nested maps and lists in file order; every value is a String
   * @throws IllegalArgumentException for a line it cannot read or a key given twice; the message
   *     gives the line's number
   */
  public static Map<String, Object> read(String text) {
    Map<String, Object> root = new LinkedHashMap<>();
    Deque<Level> open = new ArrayDeque<>();
    open.push(new Level(-1, root, ""));
    int number = 0;
    for (String raw : text.split("\n")) {
      number++;
      String line = raw.replaceFirst("(^|\\s)#.*$", "").stripTrailing();
      if (!line.isEmpty()) {
        take(line, number, open);
      }
    }
    return root;
  }

  private static void take(String line, int number, Deque<Level> open) {
    int indent = line.length() - line.stripLeading().length();
    String content = line.strip();
    if (content.startsWith("- {")) {
      while (indent < open.element().indent()) {
        open.pop();
      }
      item(new Flow(content.substring(2), number), open);
      return;
    }
    while (indent <= open.element().indent()) {
      open.pop();
    }
    int colon = content.indexOf(':');
    String value = colon < 0 ? "" : content.substring(colon + 1).strip();
    boolean flow = value.startsWith("{") || value.startsWith("[");
    boolean strange = !value.isEmpty() && "\"'&*|>-".indexOf(value.charAt(0)) >= 0;
    if (colon < 0 || strange && !value.matches("-[0-9.].*")) {
      throw new IllegalArgumentException("line " + number + ": not `key: value`: " + line);
    }
    String key = content.substring(0, colon).strip();
    Map<String, Object> inner = new LinkedHashMap<>();
    Object held = flow ? new Flow(value, number).whole() : value;
    put(open.element().map(), key, value.isEmpty() ? inner : held, number);
    if (value.isEmpty()) {
      open.push(new Level(indent, inner, key));
    }
  }

  /** Adds an item to the list that the innermost open key holds. */
  private static void item(Flow item, Deque<Level> open) {
    Level level = open.pop();
    Map<String, Object> holder = open.element().map();
    Object before = holder.get(level.key());
    List<Object> all = new ArrayList<>();
    if (before instanceof List<?> list) {
      all.addAll(list);
    }
    all.add(item.whole());
    holder.put(level.key(), all);
    open.push(level);
  }

  private static void put(Map<String, Object> map, String key, Object value, int number) {
    if (map.put(key, value) != null) {
      throw new IllegalArgumentException("line " + number + ": `" + key + "` is given twice");
    }
  }

  /** A value in braces or brackets on one line. */
  private static final class Flow {
    private final String text;
    private final int number;
    private int at;

    Flow(String text, int number) {
      this.text = text;
      this.number = number;
    }

    Object whole() {
      Object value = value();
      if (at != text.length()) {
        throw wrong();
      }
      return value;
    }

    private Object value() {
      skip();
      if (at < text.length() && text.charAt(at) == '{') {
        return mapping();
      }
      return at < text.length() && text.charAt(at) == '[' ? list() : scalar();
    }

    private Map<String, Object> mapping() {
      Map<String, Object> map = new LinkedHashMap<>();
      for (at++; !ends('}'); ) {
        String key = scalar();
        if (at >= text.length() || text.charAt(at++) != ':') {
          throw wrong();
        }
        put(map, key, value(), number);
      }
      return map;
    }

    private List<Object> list() {
      List<Object> all = new ArrayList<>();
      for (at++; !ends(']'); ) {
        all.add(value());
      }
      return all;
    }

    /** Whether the closing mark comes next; takes it, or a comma. */
    private boolean ends(char mark) {
      skip();
      if (at >= text.length()) {
        throw wrong();
      }
      boolean end = text.charAt(at) == mark;
      at += end || text.charAt(at) == ',' ? 1 : 0;
      skip();
      return end;
    }

    private String scalar() {
      int from = at;
      while (at < text.length() && ",:{}[]".indexOf(text.charAt(at)) < 0) {
        at++;
      }
      String word = text.substring(from, at).strip();
      if (word.isEmpty() || "\"'&*|>".indexOf(word.charAt(0)) >= 0) {
        throw wrong();
      }
      return word;
    }

    private void skip() {
      while (at < text.length() && text.charAt(at) == ' ') {
        at++;
      }
    }

    private IllegalArgumentException wrong() {
      return new IllegalArgumentException(
          "line " + number + ": cannot read `" + text + "` beyond `" + text.substring(0, at) + "`");
    }
  }
}
