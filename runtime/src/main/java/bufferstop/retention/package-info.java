/** Values that outlive a run: a file that is whole at any instant, and who writes it. */
package bufferstop.retention;
