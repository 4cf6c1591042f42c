package bufferstop.model;

import java.util.ArrayList;
import java.util.List;

/** A piece of a user's file as written, with its places. */
public sealed interface Tree {

  /** The smallest span that shows it. */
  Position position();

  /**
   * A value.
   *
   * @param text never null; empty for an empty value
   */
  record Scalar(SourceText text, Position position) implements Tree {
    public String value() {
      return text.value();
    }
  }

  /** A sequence. */
  record Items(List<Tree> items, Position position) implements Tree {}

  /**
   * A mapping, in file order, without duplicate keys.
   *
   * @param flow written in braces
   */
  record Table(List<Entry> entries, boolean flow, Position position) implements Tree {

    /** The value of that key, or null. */
    public Tree get(String key) {
      for (Entry entry : entries) {
        if (entry.key.text().equals(key)) {
          return entry.value;
        }
      }
      return null;
    }
  }

  /** One key with its value. */
  record Entry(Name key, Tree value) {}

  /**
   * One tree laid over another: mappings are joined key by key, anything else is replaced.
   *
   * @param over wins where both say something
   */
  static Tree overlay(Tree under, Tree over) {
    if (!(under instanceof Table below) || !(over instanceof Table above)) {
      return over;
    }
    List<Entry> entries = new ArrayList<>();
    for (Entry entry : below.entries) {
      Tree replacement = above.get(entry.key.text());
      entries.add(
          replacement == null ? entry : new Entry(entry.key, overlay(entry.value, replacement)));
    }
    for (Entry entry : above.entries) {
      if (below.get(entry.key.text()) == null) {
        entries.add(entry);
      }
    }
    return new Table(List.copyOf(entries), below.flow, below.position);
  }
}
