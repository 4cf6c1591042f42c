package bufferstop.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The keys that a mapping in a user's file may have. Loaders go by it, and schemas are made of it.
 *
 * @param name of the form, for references
 * @param what it describes, with its article, for messages: {@code a wire}
 * @param keys in the order in which people write them
 * @param choices of which keys one is given
 * @param others what stands under names of the user's choice beside the keys; null for none
 */
public record Form(String name, String what, List<Key> keys, List<Choice> choices, Shape others) {

  /**
   * One key.
   *
   * @param required whether it must be given; where it depends on others, with each of those
   * @param with keys of which one must be given for this one to be allowed, {@code key=word} for
   *     one with that value; empty when it stands by itself
   * @param text one line for people
   * @param example a value as a file writes it, empty for that of its shape
   */
  public record Key(
      String name, Shape shape, boolean required, List<String> with, String text, String example) {

    /** One that may be left out. */
    public static Key key(String name, Shape shape, String text) {
      return new Key(name, shape, false, List.of(), text, "");
    }

    /** One that must be there. */
    public static Key required(String name, Shape shape, String text) {
      return key(name, shape, text).needed();
    }

    /** The same, to be given. */
    public Key needed() {
      return new Key(name, shape, true, with, text, example);
    }

    /** The same with an example. */
    public Key example(String value) {
      return new Key(name, shape, required, with, text, value);
    }

    /** The same, allowed only beside one of some keys. */
    public Key beside(String... others) {
      return new Key(name, shape, required, List.of(others), text, example);
    }
  }

  /**
   * One of some keys is given.
   *
   * @param when keys of which one is given if this is to hold; empty for always
   * @param several whether more than one may be given
   */
  public record Choice(List<String> keys, List<String> when, boolean several) {}

  /** A form of these keys. */
  public static Form of(String name, String what, Key... keys) {
    return new Form(name, what, List.of(keys), List.of(), null);
  }

  /** The same with more keys. */
  public Form and(Key... more) {
    List<Key> all = new ArrayList<>(keys);
    all.addAll(Arrays.asList(more));
    return new Form(name, what, List.copyOf(all), choices, others);
  }

  /** The same, exactly one of some keys being given. */
  public Form exactlyOne(List<String> of) {
    return exactlyOne(of, List.of());
  }

  /** The same, where one of {@code when} is given. */
  public Form exactlyOne(List<String> of, List<String> when) {
    return with(new Choice(of, when, false));
  }

  /** The same, at least one of some keys being given. */
  public Form atLeastOne(String... of) {
    return with(new Choice(List.of(of), List.of(), true));
  }

  private Form with(Choice choice) {
    List<Choice> all = new ArrayList<>(choices);
    all.add(choice);
    return new Form(name, what, keys, List.copyOf(all), others);
  }

  /** The same with names of the user's choice beside its keys. */
  public Form others(Shape shape) {
    return new Form(name, what, keys, choices, shape);
  }

  /** The key of that name, or null. */
  public Key key(String wanted) {
    for (Key key : keys) {
      if (key.name.equals(wanted)) {
        return key;
      }
    }
    return null;
  }
}
