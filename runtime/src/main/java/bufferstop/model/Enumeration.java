package bufferstop.model;

import java.util.List;

/**
 * A type declared by its values, each carried as its number in this order, from 0.
 *
 * @param name of the type
 * @param values as declared, no two the same but for case
 */
public record Enumeration(String name, List<String> values, Position position) {

  /** The number of a value in any case, or -1. */
  public int number(String value) {
    for (int i = 0; i < values.size(); i++) {
      if (values.get(i).equalsIgnoreCase(value)) {
        return i;
      }
    }
    return -1;
  }

  /** The value of a number; the number itself where there is none. */
  public String print(long number) {
    return number >= 0 && number < values.size() ? values.get((int) number) : Long.toString(number);
  }
}
