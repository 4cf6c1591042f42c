/**
 * The validated project as immutable data, and diagnostics as data. Takes nothing from other rooms
 * and imports none of them; never reads a file, prints or evaluates anything.
 */
package bufferstop.model;
