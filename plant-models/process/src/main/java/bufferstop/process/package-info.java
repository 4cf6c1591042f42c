/**
 * A wet-well pump station: inflow, level, pumps in parallel on one rising main, non-return valves,
 * motors with thermal overload. Takes settings and contactor positions, gives level, flows,
 * currents and contacts in SI units. Its figures serve the bench only.
 */
package bufferstop.process;
