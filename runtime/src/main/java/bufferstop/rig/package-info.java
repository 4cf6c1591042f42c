/**
 * Puts the parts together for each use: a rig in virtual time for scenarios, a live one for {@code
 * run}. Takes a project; gives a {@link bufferstop.scenario.Target} or a running controller. Never
 * prints, never ends the process.
 */
package bufferstop.rig;
