/**
 * Speaks Modbus TCP: takes published snapshots and gives operator writes, one atomic command a
 * request. Never sees the engine, never holds up a scan, never reads the image itself.
 */
package bufferstop.modbus;
