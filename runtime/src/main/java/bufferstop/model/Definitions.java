package bufferstop.model;

import java.util.List;

/** What a project defines besides its points: types, constants, arrays; each in file order. */
public record Definitions(
    List<Enumeration> enumerations, List<NamedConstant> constants, List<ArrayBounds> arrays) {

  /** No definitions. */
  public static final Definitions NONE = new Definitions(List.of(), List.of(), List.of());

  /** Whether no name can stand for a constant value. */
  public boolean hasNoValues() {
    return enumerations.isEmpty() && constants.isEmpty();
  }

  /** The type of that name in any case, or null. */
  public Enumeration enumeration(String name) {
    for (Enumeration enumeration : enumerations) {
      if (enumeration.name().equalsIgnoreCase(name)) {
        return enumeration;
      }
    }
    return null;
  }

  /** Every type with a value of that name. */
  public List<Enumeration> enumerationsWith(String value) {
    return enumerations.isEmpty()
        ? List.of()
        : enumerations.stream().filter(e -> e.number(value) >= 0).toList();
  }

  /** The constant of that name in any case, or null. */
  public NamedConstant constant(String name) {
    for (NamedConstant constant : constants) {
      if (constant.name().equalsIgnoreCase(name)) {
        return constant;
      }
    }
    return null;
  }

  /** The array of that name in any case, or null. */
  public ArrayBounds array(String name) {
    for (ArrayBounds array : arrays) {
      if (array.name().equalsIgnoreCase(name)) {
        return array;
      }
    }
    return null;
  }
}
