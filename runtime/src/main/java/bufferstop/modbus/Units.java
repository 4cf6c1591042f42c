package bufferstop.modbus;

import java.util.List;

/** The units of a listener by their identifiers. */
final class Units {
  // a server reached by its own address answers these two as well: they mean its first unit.
  // Source: Implementation Guide V1.0b, 4.4.1.2 [re-read].
  private static final int DIRECT = 0xFF;
  private static final int ZERO = 0;

  private final Unit[] byId = new Unit[256];

  /**
   * @param units at least one; the first answers 0 and 255 too, unless another has that identifier
   */
  Units(List<Unit> units) {
    for (Unit unit : units) {
      if (byId[unit.id()] != null) {
        throw new IllegalArgumentException("two units have the identifier " + unit.id());
      }
      byId[unit.id()] = unit;
    }
    for (int id : new int[] {ZERO, DIRECT}) {
      byId[id] = byId[id] == null ? units.get(0) : byId[id];
    }
  }

  /** Never null. */
  Unit of(int id) throws Refusal {
    Refusal.unless(byId[id] != null, Refusal.NO_SUCH_UNIT);
    return byId[id];
  }
}
