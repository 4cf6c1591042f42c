package bufferstop.model;

/**
 * A named value of a run, and where it lives in the image.
 *
 * @param index of its cell
 * @param name as declared, dotted below its head
 * @param type how the cell is read
 * @param kind what it is
 * @param unit as printed, may be empty
 * @param text one line for people, may be empty
 * @param declared where, for notes
 */
public record Symbol(
    int index, String name, Type type, Kind kind, String unit, String text, Position declared) {

  /** What a named value is. */
  public enum Kind {
    INPUT("input"),
    OUTPUT("output"),
    OPERATOR("operator"),
    INTERNAL("internal"),
    PLANT_PORT("plant port"),

    /** Of the body of a block or function: its index counts from the first cell of the instance. */
    LOCAL("local");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** As the I/O list prints it. */
    public String words() {
      return words;
    }
  }
}
