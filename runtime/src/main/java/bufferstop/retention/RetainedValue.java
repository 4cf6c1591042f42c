package bufferstop.retention;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Something retained, as it was kept.
 *
 * @param name of what is retained
 * @param type what its bits mean, without spaces
 * @param bits of its cells, in their order
 */
public record RetainedValue(String name, String type, List<Long> bits) {
  private static final int HEX = 16;
  private static final Pattern FORM = Pattern.compile("\\S+ \\S+( [0-9a-f]{1,16})+");

  /** {@code name TYPE} and the bits of each cell in hexadecimal, on one line. */
  public String text() {
    StringBuilder text = new StringBuilder(name + " " + type);
    bits.forEach(cell -> text.append(' ').append(Long.toHexString(cell)));
    return text.toString();
  }

  /** What {@link #text} gave; null for anything else. */
  public static RetainedValue of(String text) {
    if (!FORM.matcher(text).matches()) {
      return null;
    }
    String[] words = text.split(" ");
    List<Long> bits = new ArrayList<>();
    for (int i = 2; i < words.length; i++) {
      bits.add(Long.parseUnsignedLong(words[i], HEX));
    }
    return new RetainedValue(words[0], words[1], List.copyOf(bits));
  }
}
