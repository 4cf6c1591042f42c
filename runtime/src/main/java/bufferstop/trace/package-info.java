/**
 * What a run leaves behind. Takes the image after every scan; gives its canonical encoding, whose
 * SHA-256 is the identity of the run. Never changes an image.
 */
package bufferstop.trace;
