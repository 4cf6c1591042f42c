/**
 * What a plant plug-in gives and gets. A plug-in is a {@link bufferstop.spi.PlantModel} found by
 * {@link java.util.ServiceLoader}; it declares its parameters as data, opens them into a {@link
 * bufferstop.spi.Plant} and is then stepped at a fixed step by one thread. This package depends on
 * nothing and never reads a clock, a file or a socket.
 */
package bufferstop.spi;
