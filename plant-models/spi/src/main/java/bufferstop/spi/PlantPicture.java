package bufferstop.spi;

/**
 * A picture of a plant.
 *
 * @param name lower case with underscores; empty for the one of the present state
 * @param svg an SVG document with its own size
 */
public record PlantPicture(String name, String svg) {}
