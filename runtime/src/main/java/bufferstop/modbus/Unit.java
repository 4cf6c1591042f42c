package bufferstop.modbus;

import bufferstop.image.OperatorWrites;
import bufferstop.image.SnapshotRing;

/**
 * One unit behind a listener, with a map of its own. What its clients' writes do is decided by
 * whoever drains {@code writes} in the scan: operator points take them, but a fault panel may as
 * well. All the rest (one atomic command a request, one write a cell and scan, the answer after the
 * publication that shows it, withdrawal when no scan comes) holds for every unit alike.
 *
 * @param id unit identifier, 0 to 255
 * @param image its map; cells are those of {@code writes} and {@code snapshots}
 * @param writes where writes go; drained once a scan under the number of the coming publication
 * @param snapshots what reads see; a unit with cells of its own has a ring of its own
 * @param identification what function 43/14 tells
 */
public record Unit(
    int id,
    MapImage image,
    OperatorWrites writes,
    SnapshotRing snapshots,
    Identification identification) {

  /**
   * Checks the identifier.
   *
   * @throws IllegalArgumentException if it is not 0 to 255
   */
  public Unit {
    if (id < 0 || id > 255) {
      throw new IllegalArgumentException("unit identifier " + id + " is not 0 to 255");
    }
  }

  /** A unit that tells only what the product is. */
  public Unit(int id, MapImage image, OperatorWrites writes, SnapshotRing snapshots) {
    this(id, image, writes, snapshots, Identification.STANDARD);
  }
}
