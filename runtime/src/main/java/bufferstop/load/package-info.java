/**
 * Reads a user's YAML into the model. Works on nodes with their places, so that every problem is
 * shown where it stands and all of them in one pass; a scalar is read by what its field expects, so
 * that no word of YAML 1.1 ({@code no}, {@code on}, {@code 012}) can surprise. Expressions stay
 * text with a position; only literals are read here. Never runs anything.
 */
package bufferstop.load;
