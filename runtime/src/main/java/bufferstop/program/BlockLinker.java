package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.SourceText;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import java.util.List;
import java.util.Map;

/** Resolves the inputs of a block. */
final class BlockLinker {
  private final Layout layout;
  private final Diagnostics problems;

  BlockLinker(Layout layout, Diagnostics problems) {
    this.layout = layout;
    this.problems = problems;
  }

  BlockInstance link(Controller.Block block, BlockKind kind) {
    List<BlockKind.Pin> pins = kind.inputs();
    Expression[] in = new Expression[pins.size()];
    for (Map.Entry<Name, SourceText> input : block.inputs().entrySet()) {
      int pin = indexOf(pins, input.getKey().text());
      if (pin < 0) {
        List<String> known = pins.stream().map(BlockKind.Pin::name).toList();
        problems.add(
            Diagnostic.error(
                    input.getKey().position(),
                    "a " + kind + " has no input `" + input.getKey().text() + "`")
                .expected(String.join(", ", known))
                .help(NearNames.question(input.getKey().text(), known)));
      } else if (in[pin] != null) {
        problems.add(
            Diagnostic.error(
                    input.getKey().position(),
                    "`" + block.name() + "` has the input " + input.getKey().text() + " twice")
                .help("keep one of them; upper and lower case are the same"));
      } else if (input.getValue() != null) {
        in[pin] =
            ExpressionReader.read(
                input.getValue(), layout.controller(), pins.get(pin).type(), problems);
      }
    }
    if (block.inputs().keySet().stream().allMatch(n -> indexOf(pins, n.text()) >= 0)) {
      reportMissing(block, kind);
    }
    int[] out =
        kind.outputs().stream()
            .mapToInt(p -> layout.controller().find(block.name() + "." + p.name()).index())
            .toArray();
    return BlockInstance.of(kind, in, out);
  }

  private void reportMissing(Controller.Block block, BlockKind kind) {
    for (BlockKind.Pin pin : kind.inputs()) {
      boolean given = block.inputs().keySet().stream().anyMatch(n -> n.text().equals(pin.name()));
      if (pin.required() && !given) {
        problems.add(
            Diagnostic.error(
                    block.position(), "`" + block.name() + "` needs the input " + pin.name())
                .expected(pin.name() + ", " + pin.type()));
      }
    }
  }

  private static int indexOf(List<BlockKind.Pin> pins, String name) {
    for (int i = 0; i < pins.size(); i++) {
      if (pins.get(i).name().equals(name)) {
        return i;
      }
    }
    return -1;
  }
}
