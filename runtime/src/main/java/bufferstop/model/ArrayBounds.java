package bufferstop.model;

/**
 * A declared array, whose elements are points of their own: {@code recipe[1]} and so on.
 *
 * @param least the first index, which may be below 0
 * @param greatest the last index
 */
public record ArrayBounds(String name, int least, int greatest, Position position) {

  /** How many elements it has. */
  public int count() {
    return greatest - least + 1;
  }

  /** The name of an element. */
  public String element(long index) {
    return name + "[" + index + "]";
  }
}
