/**
 * Values that outlive a run: which cells they are in, a file that is whole at any instant, and who
 * writes it.
 */
package bufferstop.retention;
