package bufferstop.e2e;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A value change dump read back: for each signal by its full name its values by time. Source of the
 * form: IEEE 1364-2005, 18.2.1 [second-hand]. A vector is extended on the left by 0, which is what
 * its leftmost digit 0 or 1 asks for.
 */
final class Vcd {
  private final Map<String, TreeMap<Long, String>> signals = new TreeMap<>();

  static Vcd read(String text) {
    Vcd vcd = new Vcd();
    Map<String, List<String>> names = new TreeMap<>();
    List<String> scopes = new ArrayList<>();
    String[] words = text.trim().split("\\s+");
    long time = 0;
    for (int i = 0; i < words.length; i++) {
      String word = words[i];
      switch (word) {
        case "$scope" -> scopes.add(words[i + 2]);
        case "$upscope" -> scopes.remove(scopes.size() - 1);
        case "$var" -> {
          String name = String.join(".", scopes) + "." + words[i + 4];
          names.computeIfAbsent(words[i + 3], k -> new ArrayList<>()).add(name);
        }
        default -> {
          if (word.startsWith("#")) {
            time = Long.parseLong(word.substring(1));
          } else if ((word.startsWith("b") || word.startsWith("r")) && i + 1 < words.length) {
            String value =
                word.startsWith("b")
                    ? new BigInteger(word.substring(1), 2) + ""
                    : word.substring(1);
            vcd.put(names.get(words[++i]), time, value);
          } else if (word.matches("[01].+")) {
            vcd.put(names.get(word.substring(1)), time, word.substring(0, 1));
          }
        }
      }
      if (word.matches("\\$(scope|upscope|var|date|version|timescale|comment|enddefinitions)")) {
        while (!words[i].equals("$end")) {
          i++;
        }
      }
    }
    return vcd;
  }

  private void put(List<String> names, long time, String value) {
    for (String name : names) {
      signals.computeIfAbsent(name, k -> new TreeMap<>()).put(time, value);
    }
  }

  /** Values by time, without those that repeat the one before. */
  Map<String, TreeMap<Long, String>> changes() {
    Map<String, TreeMap<Long, String>> changes = new TreeMap<>();
    signals.forEach(
        (name, values) -> {
          TreeMap<Long, String> kept = new TreeMap<>();
          String last = null;
          for (var entry : values.entrySet()) {
            if (!entry.getValue().equals(last)) {
              kept.put(entry.getKey(), entry.getValue());
            }
            last = entry.getValue();
          }
          changes.put(name, kept);
        });
    return changes;
  }
}
