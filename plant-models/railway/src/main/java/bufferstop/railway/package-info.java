/**
 * A dead-end railway line with one locomotive, wagons, couplers, buffer stops, track-side sensors,
 * a loading hopper and a discharge place, for closing a controller's loop on the bench. Takes
 * settings and contactor positions, gives places, speeds and sensor states in SI units. It never
 * reads a clock and is no judge of a real train, brake or protection system.
 */
package bufferstop.railway;
