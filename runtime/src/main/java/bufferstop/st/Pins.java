package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.st.BlockType.Pin;
import java.util.List;

/** Finds the pins that calls name. */
final class Pins {
  private Pins() {}

  /** The number of a pin; -1 after a diagnostic, which begins as {@code message} does. */
  static int find(List<Pin> pins, String name, Position position, String message, Typing typing) {
    List<String> known = pins.stream().map(Pin::name).toList();
    for (int i = 0; i < known.size(); i++) {
      if (known.get(i).equalsIgnoreCase(name)) {
        return i;
      }
    }
    typing.wrong(
        Code.BAD_CALL,
        position,
        message + " `" + name + "`",
        String.join(", ", known),
        NearNames.question(name, known));
    return -1;
  }
}
