package bufferstop.retention;

import bufferstop.model.Type;

/**
 * One cell as it was kept.
 *
 * @param name of its symbol
 * @param bits in the encoding of {@link Type}
 */
public record RetainedValue(String name, Type type, long bits) {}
