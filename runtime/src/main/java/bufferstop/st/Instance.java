package bufferstop.st;

import bufferstop.model.Position;
import bufferstop.model.Symbol;
import java.util.List;

/**
 * An instance of a function block that statements may call.
 *
 * @param name as declared
 * @param first its first cell
 * @param declared where
 */
public record Instance(String name, BlockType type, Symbol first, Position declared) {

  /** The first cell of an input. */
  Symbol input(int number) {
    return cell(type.inputs(), number, 0);
  }

  /** The first cell of an output. */
  Symbol output(int number) {
    return cell(type.outputs(), number, BlockType.cells(type.inputs()));
  }

  private Symbol cell(List<BlockType.Pin> pins, int number, int before) {
    BlockType.Pin pin = pins.get(number);
    int index = first.index() + before + BlockType.cells(pins.subList(0, number));
    String dotted = name + "." + pin.name();
    return new Symbol(index, dotted, pin.of(), first.kind(), pin.text(), declared);
  }
}
