package bufferstop.spi;

/**
 * A fault a plant can be given.
 *
 * @param name lower case with underscores: {@code wheel_slip}
 * @param unit unit of its amount, empty when it is only on or off
 * @param min least amount
 * @param max greatest amount
 * @param text what it models, one line
 */
public record PlantFault(String name, String unit, double min, double max, String text) {}
