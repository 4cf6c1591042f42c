package bufferstop.st;

import bufferstop.model.Position;
import bufferstop.model.Symbol;

/**
 * An instance of a function block that statements may call.
 *
 * @param name as declared
 * @param first its first cell
 * @param declared where
 */
public record Instance(String name, BlockType type, Symbol first, Position declared) {

  /** The cell of an input. */
  Symbol input(int number) {
    return cell(type.inputs().get(number), number);
  }

  /** The cell of an output. */
  Symbol output(int number) {
    return cell(type.outputs().get(number), type.inputs().size() + number);
  }

  private Symbol cell(BlockType.Pin pin, int offset) {
    String dotted = name + "." + pin.name();
    return new Symbol(
        first.index() + offset, dotted, pin.type(), first.kind(), "", pin.text(), declared);
  }
}
