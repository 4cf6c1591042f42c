package bufferstop.plant;

import bufferstop.spi.PlantEvent;

/** Hears what happens in plants. */
public interface PlantEvents {

  /**
   * Something happened in this plant step.
   *
   * @param plant name of the plant in the project
   * @param value in the event's unit
   */
  void happened(String plant, PlantEvent event, double value);
}
