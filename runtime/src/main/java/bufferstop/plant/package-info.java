/**
 * Everything outside the controller: hosts plug-ins and runs wires, circuits, supplies, panel and
 * the faults on them, at the plant step. Takes the declared field and a layout; gives a {@link
 * bufferstop.plant.FieldRun}. Never reads a clock, never allocates in a step, never sees the
 * program.
 */
package bufferstop.plant;
