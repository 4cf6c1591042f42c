/**
 * The Modbus server under load, in a process of its own, beside the stock server of a Java library,
 * a server on a C library, and a bare echo of the same sizes.
 */
package bufferstop.bench.modbus;
