package bufferstop.plant;

/** Hears what happens in plants. */
public interface PlantEvents {

  /**
   * Something happened in this plant step.
   *
   * @param plant name of the plant in the project
   * @param text what happened, one line
   * @param value in {@code unit}; without meaning when the unit is empty
   */
  void happened(String plant, String text, double value, String unit);
}
