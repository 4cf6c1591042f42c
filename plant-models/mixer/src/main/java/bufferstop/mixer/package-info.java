/**
 * A batch mixer as a plant: silos with valves, a weigh hopper on a load cell, a heated vessel with
 * an agitator, a discharge. Takes what the controller's outputs drive, gives what its sensors tell;
 * it never decides anything.
 */
package bufferstop.mixer;
