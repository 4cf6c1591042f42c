/**
 * A small radial feeder for the bench: a source, transformers and lines, loads, faults, breakers,
 * fuses, protection relays with reclosing, and meters. Takes settings, switching commands and what
 * loads draw, gives voltages, currents, contacts, relay states and meter registers in SI units. It
 * never reads a clock. It is a bench model: no protection study, and no judge of settings for a
 * real network, which are a licensed engineer's.
 */
package bufferstop.feeder;
