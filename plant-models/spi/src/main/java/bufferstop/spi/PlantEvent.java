package bufferstop.spi;

/**
 * Something that can happen in a plant.
 *
 * @param name lower case with underscores: {@code wall_struck}
 * @param unit unit of its value, empty when it carries none
 * @param text what happened, one line
 */
public record PlantEvent(String name, String unit, String text) {}
