/**
 * The controller, made ready to scan: blocks, interlocks, sequences, logic, outputs and alarms over
 * the cells of an image, every name resolved to an index beforehand. Takes the declared controller
 * and a layout; gives a {@link bufferstop.program.ControllerProgram}. Never reads a clock, never
 * allocates in a scan, never sees a plant or a socket.
 */
package bufferstop.program;
