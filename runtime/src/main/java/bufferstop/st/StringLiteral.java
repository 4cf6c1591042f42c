package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/**
 * A text, {@code 'it$'s'}. Where a STRING is needed that lies in cells, it is put into some of its
 * own each time. Source: IEC 61131-3:2003, 2.2.2, Tables 5 and 6 [from memory, not re-read].
 */
final class StringLiteral extends Expression {
  private final String text;
  private final Symbol memory; // or null

  StringLiteral(String text, SourceText source) {
    this(text, null, source);
  }

  private StringLiteral(String text, Symbol memory, SourceText source) {
    super(Type.STRING, source);
    this.text = text;
    this.memory = memory;
  }

  /** What is between the quotes: its characters, or what is wrong with it. */
  record Characters(String text, String complaint) {}

  static Characters characters(String written) {
    StringBuilder text = new StringBuilder();
    int i = 0;
    while (i < written.length()) {
      char c = written.charAt(i);
      if (c > 0xFF) {
        return new Characters(null, "`" + written.substring(i, i + 1) + "` is more than one byte");
      }
      int length = c == '$' ? escape(written, i + 1, text) : 1;
      if (length == 0) {
        String found = written.substring(i, Math.min(written.length(), i + 2));
        return new Characters(null, "`" + found + "` stands for no character");
      }
      if (c != '$') {
        text.append(c);
      }
      i += length;
    }
    return text.length() <= StringCells.LONGEST
        ? new Characters(text.toString(), null)
        : new Characters(null, "a text of " + text.length() + " characters, at most 254");
  }

  /** Adds what stands after a $; gives how long it is with the $, 0 for what means nothing. */
  private static int escape(String written, int at, StringBuilder text) {
    char kind = at < written.length() ? written.charAt(at) : ' ';
    int control = "LNPRT".indexOf(Character.toUpperCase(kind));
    if (kind == '$' || kind == '\'') {
      text.append(kind);
    } else if (control >= 0) {
      text.append("\n\n\f\r\t".charAt(control));
    } else if (at + 1 < written.length() && isHex(kind) && isHex(written.charAt(at + 1))) {
      text.append((char) Integer.parseInt(written.substring(at, at + 2), 16));
      return 3;
    } else {
      return 0;
    }
    return 2;
  }

  private static boolean isHex(char c) {
    return c < 0x80 && Character.digit(c, 16) >= 0;
  }

  @Override
  public String text() {
    return text;
  }

  @Override
  int capacity() {
    return text.length();
  }

  /** Whether it has cells to lie in. */
  boolean lies() {
    return memory != null;
  }

  /** How many cells it needs. */
  int memory() {
    return StringCells.cells(text.length());
  }

  /** The same, with cells to lie in. */
  StringLiteral lying(Symbol cells) {
    return new StringLiteral(text, cells, source());
  }

  @Override
  long bits(long[] cells, int at) {
    return Strings.literal(text, Read.cell(memory, at), cells);
  }

  @Override
  List<Expression> operands() {
    return List.of();
  }

  /** It writes cells, so that it cannot be worked out without any. */
  @Override
  boolean readsAnything() {
    return true;
  }

  @Override
  int ownBytes() {
    return 14;
  }

  @Override
  void emit(Code code) {
    code.push(text);
    code.cell(memory);
    code.cells();
    code.call(Strings.class, "literal", "(Ljava/lang/String;I[J)J");
  }
}
