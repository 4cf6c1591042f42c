/**
 * Typed storage of a run: every named value lives in one cell of one array. The scan thread owns
 * the image; other threads meet it at two doors only, the {@link bufferstop.image.SnapshotRing}
 * (reads) and the {@link bufferstop.image.OperatorWrites} (writes). Never evaluates anything, never
 * waits.
 */
package bufferstop.image;
