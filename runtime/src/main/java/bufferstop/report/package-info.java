/**
 * Evidence: problems and verdicts as text, results as JSON and JUnit-style XML, pictures as files.
 * Takes results; gives text and files. Never runs anything, never prints.
 */
package bufferstop.report;
