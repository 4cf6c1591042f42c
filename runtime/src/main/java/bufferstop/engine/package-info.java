/**
 * The scan: its order, its clock, its watchdog and its statistics. Takes a linked controller and
 * field; gives a {@link bufferstop.engine.Engine} that performs one scan at a time, and a {@link
 * bufferstop.engine.Clock} that says when. Never prints, never opens a socket.
 */
package bufferstop.engine;
