/**
 * Expressions and statements of Structured Text. Takes text with a position and the names in scope,
 * gives a typed tree that is evaluated over the cells of an image, or diagnostics; never reads a
 * file, keeps state between evaluations, allocates while evaluating or prints.
 *
 * <p><b>Order.</b> From tightest: brackets, calls, unary {@code -} and {@code NOT}, {@code **},
 * {@code * / MOD}, {@code + -}, {@code < > <= >=}, {@code = <>}, {@code AND &}, {@code XOR}, {@code
 * OR}; equal levels from the left (IEC 61131-3:2003, Table 55 [re-read]). {@code -a ** b} must be
 * given brackets, since editions read it differently. Everything is evaluated, also the side of an
 * AND or OR that no longer matters, so that its errors are seen.
 *
 * <p><b>Types.</b> Operands widen where the whole range and precision fit, never otherwise, and the
 * target of an assignment does not reach into its right side. A literal without a type takes the
 * type it is used with when it fits; so does an expression made only of such literals, integers
 * among integers and reals among reals. Without such a use an integer is the first of INT, DINT,
 * LINT and ULINT that holds it and a real is LREAL. TIME counts microseconds; conversions between
 * TIME and numbers are in milliseconds.
 *
 * <p><b>Errors while running.</b> A result outside its type, a division by zero, a conversion that
 * does not fit, NaN and infinity count one in cell 0, and the operation gives 0. A condition in
 * which an error was counted is FALSE; an assignment in whose right side one was counted leaves its
 * target alone. A CASE whose selector failed takes its ELSE, a FOR with an error in a bound does
 * nothing. A FOR that has made {@link bufferstop.st.For#MOST_PASSES} passes since the program was
 * started counts an error and ends. MOD by zero is 0 and no error.
 */
package bufferstop.st;
