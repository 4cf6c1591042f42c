/**
 * The function blocks that every project has: what an instance holds and what a call does to its
 * cells. Pure algorithms over a {@code long[]}; nothing here allocates or keeps anything elsewhere.
 */
package bufferstop.blocks;
