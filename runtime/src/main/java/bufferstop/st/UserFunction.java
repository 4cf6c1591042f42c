package bufferstop.st;

import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/**
 * A function of the user's own. All its calls share one frame of cells, since no call begins while
 * another runs: recursion is refused, and the inputs of a call are worked out before it begins.
 *
 * @param name as declared
 * @param inputs what a call gives, in order
 * @param frame the cells of the inputs, in the same order
 * @param result the cell in which the body leaves the value
 * @param body sets its locals and the result to their initial values first
 */
public record UserFunction(
    String name, List<BlockType.Pin> inputs, List<Symbol> frame, Symbol result, Body body) {

  /** The type of its value. */
  public Type type() {
    return result.type();
  }
}
