package bufferstop.model;

/**
 * An array of a run. Its elements stand one after the other.
 *
 * @param first its first element
 */
public record ArrayOf(ArrayBounds bounds, Symbol first) {

  /** Its type as declared. */
  public ValueType type() {
    return new ValueType(first.type(), first.enumeration(), first.length(), bounds);
  }

  /** Cells from one element to the next. */
  public int stride() {
    return first.cells();
  }
}
