package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Controller;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.st.BlockType;
import bufferstop.st.BlockType.Pin;
import bufferstop.st.Expression;
import bufferstop.st.ExpressionReader;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/** Resolves the inputs of a block. */
final class BlockLinker {
  private final Scope scope;
  private final Layout layout;
  private final Diagnostics problems;

  BlockLinker(Scope scope, Layout layout, Diagnostics problems) {
    this.scope = scope;
    this.layout = layout;
    this.problems = problems;
  }

  /**
   * The call of a block in step 2 of the scan.
   *
   * @param first the first cell of the instance
   */
  Statement link(Controller.Block block, BlockType type, Symbol first) {
    List<Terms.Input> inputs = new ArrayList<>();
    TreeSet<Integer> given = new TreeSet<>();
    for (Map.Entry<Name, SourceText> input : block.inputs().entrySet()) {
      String name = input.getKey().text();
      int pin = indexOf(type.inputs(), name);
      if (pin < 0) {
        List<String> known = type.inputs().stream().map(Pin::name).toList();
        problems.add(
            Diagnostic.error(
                    Code.BAD_CALL,
                    input.getKey().position(),
                    "a " + type.name() + " has no input `" + name + "`")
                .expected(String.join(", ", known))
                .help(NearNames.question(name, withOwnKey(known))));
      } else if (!given.add(pin)) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_CALL,
                    input.getKey().position(),
                    "`"
                        + block.name()
                        + "` has the input "
                        + type.inputs().get(pin).name()
                        + " twice")
                .help("keep one of them; upper and lower case are the same"));
      } else if (input.getValue() != null) {
        Pin taken = type.inputs().get(pin);
        Expression value = ExpressionReader.input(input.getValue(), scope, taken, problems);
        if (value != null) {
          int cell = first.index() + BlockType.cells(type.inputs().subList(0, pin));
          inputs.add(new Terms.Input(layout.symbol(cell), taken, value));
        }
      }
    }
    if (block.inputs().keySet().stream().allMatch(n -> indexOf(type.inputs(), n.text()) >= 0)) {
      reportMissing(block, type);
    }
    return Terms.call(type, first, inputs);
  }

  /** What may stand beside the inputs of a block may be meant, too. */
  private static List<String> withOwnKey(List<String> inputs) {
    List<String> all = new ArrayList<>(inputs);
    all.add("retain");
    return all;
  }

  private void reportMissing(Controller.Block block, BlockType type) {
    for (Pin pin : type.inputs()) {
      boolean given =
          block.inputs().keySet().stream().anyMatch(n -> n.text().equalsIgnoreCase(pin.name()));
      if (pin.required() && !given) {
        problems.add(
            Diagnostic.error(
                    Code.MISSING_INPUT,
                    block.position(),
                    "`" + block.name() + "` needs the input " + pin.name())
                .expected(pin.name() + ", " + pin.of().words())
                .help(
                    block.inputs().isEmpty()
                        ? "or call it in the logic: `" + block.name() + "(...);`"
                        : ""));
      }
    }
  }

  private static int indexOf(List<Pin> pins, String name) {
    for (int i = 0; i < pins.size(); i++) {
      if (pins.get(i).name().equalsIgnoreCase(name)) {
        return i;
      }
    }
    return -1;
  }
}
