package bufferstop.testkit;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Reads the plain part of YAML that a settings file needs: nested block mappings of {@code key:
 * value}, indented by spaces, with comments. Sequences, quotes and flow style are refused. Tests
 * only; the host has the full reader.
 */
public final class SettingsText {
  private record Level(int indent, Map<String, Object> map) {}

  private SettingsText() {}

  /**
   * Reads a text.
   *
   * @return nested maps in file order; every value is a String
   * @throws IllegalArgumentException for a line it cannot read or a key given twice; the message
   *     gives the line's number
   */
  public static Map<String, Object> read(String text) {
    Map<String, Object> root = new LinkedHashMap<>();
    Deque<Level> open = new ArrayDeque<>();
    open.push(new Level(-1, root));
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
    while (indent <= open.element().indent()) {
      open.pop();
    }
    int colon = line.indexOf(':');
    String value = colon < 0 ? "" : line.substring(colon + 1).strip();
    if (colon < 0 || !value.isEmpty() && "[{\"'&*|>-".indexOf(value.charAt(0)) >= 0) {
      if (!value.matches("-[0-9.].*")) {
        throw new IllegalArgumentException("line " + number + ": not `key: value`: " + line);
      }
    }
    String key = line.substring(0, colon).strip();
    Map<String, Object> inner = new LinkedHashMap<>();
    Object before = open.element().map().put(key, value.isEmpty() ? inner : value);
    if (before != null) {
      throw new IllegalArgumentException("line " + number + ": `" + key + "` is given twice");
    }
    if (value.isEmpty()) {
      open.push(new Level(indent, inner));
    }
  }
}
