package bufferstop.st;

import java.util.List;

/** How a BOOL expression is put together, for those who ask how far it is from changing. */
public sealed interface Structure {

  /** TRUE when all of at least two parts are. */
  record And(List<Expression> parts) implements Structure {}

  /** TRUE when one of at least two parts is. */
  record Or(List<Expression> parts) implements Structure {}

  /** TRUE when its part is not. */
  record Not(Expression part) implements Structure {}

  /**
   * Compares two numbers or two TIMEs of one type.
   *
   * @param operator {@code <}, {@code <=}, {@code >}, {@code >=}, {@code =} or {@code <>}
   */
  record Comparison(Expression left, String operator, Expression right) implements Structure {}

  /** Anything else: a name, a constant, XOR, a comparison of BOOLs, the result of a function. */
  record Leaf() implements Structure {}
}
