/** The commands: the only room that prints or ends the process. */
package bufferstop.cli;
