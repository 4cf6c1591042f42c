package bufferstop.st;

/**
 * A piece of the text.
 *
 * @param text as written; keywords and symbols in upper case
 * @param start offset of its first character
 * @param end offset after its last character
 */
record Token(Kind kind, String text, int start, int end) {

  enum Kind {
    /** A dotted name. */
    NAME,
    /** Starts with a digit, a point and a digit, or a word and {@code #}. */
    LITERAL,
    KEYWORD,
    SYMBOL,
    /** Stands for a value, but something in it was already reported. */
    BROKEN_VALUE,
    /** Already reported; nothing can be made of it. */
    BAD,
    END
  }

  /** Whether it is that keyword or symbol. */
  boolean is(String word) {
    return (kind == Kind.KEYWORD || kind == Kind.SYMBOL) && text.equals(word);
  }
}
