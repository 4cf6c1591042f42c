package bufferstop.model;

import java.util.ArrayList;
import java.util.List;

/**
 * Comma-separated values by RFC 4180, section 2 [rules 1 to 5 re-read]. Line feeds alone are
 * accepted on reading and never written.
 */
public final class Csv {
  private static final String LINE_END = "\r\n";

  private Csv() {}

  /** What is wrong with a file, and in which line from 1. */
  public static final class Broken extends Exception {
    private final int line;

    Broken(int line, String message) {
      super(message);
      this.line = line;
    }

    public int line() {
      return line;
    }
  }

  /** One record with its line end. */
  public static String line(List<String> fields) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < fields.size(); i++) {
      line.append(i == 0 ? "" : ",").append(field(fields.get(i)));
    }
    return line.append(LINE_END).toString();
  }

  /** One field, quoted where it must be. */
  public static String field(String value) {
    boolean plain = value.chars().noneMatch(c -> c == ',' || c == '"' || c == '\r' || c == '\n');
    return plain ? value : "\"" + value.replace("\"", "\"\"") + "\"";
  }

  /**
   * All records of a text, the first of them the header.
   *
   * @throws Broken when a field is misquoted or a record has another number of fields than the
   *     first
   */
  public static List<List<String>> read(String text) throws Broken {
    List<List<String>> records = new ArrayList<>();
    Reader reader = new Reader(text);
    while (reader.at < text.length()) {
      int line = reader.line;
      List<String> fields = reader.record();
      records.add(fields);
      int wanted = records.get(0).size();
      if (fields.size() != wanted) {
        throw new Broken(line, fields.size() + " fields instead of " + wanted);
      }
    }
    return records;
  }

  private static final class Reader {
    private final String text;
    private int at;
    private int line = 1;

    Reader(String text) {
      this.text = text;
    }

    private List<String> record() throws Broken {
      List<String> fields = new ArrayList<>();
      while (true) {
        fields.add(at < text.length() && text.charAt(at) == '"' ? quoted() : plain());
        char next = at < text.length() ? text.charAt(at) : '\n';
        if (next == ',') {
          at++;
        } else if (next == '\n' || next == '\r' && text.startsWith("\r\n", at)) {
          at += next == '\n' ? 1 : 2;
          line++;
          return fields;
        } else {
          throw new Broken(line, "text after the closing quote");
        }
      }
    }

    private String plain() throws Broken {
      int start = at;
      while (at < text.length() && ",\n".indexOf(text.charAt(at)) < 0) {
        if (text.charAt(at) == '"') {
          throw new Broken(line, "a quote in a field that does not begin with one");
        }
        at++;
      }
      boolean carriage = at > start && at < text.length() && text.charAt(at - 1) == '\r';
      at -= carriage ? 1 : 0;
      return text.substring(start, at);
    }

    private String quoted() throws Broken {
      StringBuilder value = new StringBuilder();
      int began = line;
      for (at++; at < text.length(); at++) {
        char c = text.charAt(at);
        if (c == '"' && at + 1 < text.length() && text.charAt(at + 1) == '"') {
          at++;
        } else if (c == '"') {
          at++;
          return value.toString();
        }
        line += c == '\n' ? 1 : 0;
        value.append(c);
      }
      throw new Broken(began, "a quote that is not closed");
    }
  }
}
