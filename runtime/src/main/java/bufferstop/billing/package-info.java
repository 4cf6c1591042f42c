/**
 * Takes a tariff and what a meter showed from moment to moment, and gives a bill, every line with
 * its arithmetic, and the energy balance of the network. Money is exact decimal arithmetic. Never
 * reads or writes anything, never sees a run.
 */
package bufferstop.billing;
