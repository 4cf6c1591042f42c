/**
 * Benchmarks of the product beside hand-written baselines in the same run. JMH is under GPL-2.0
 * with the class path exception: it is kept out of what ships.
 */
package bufferstop.bench;
