package bufferstop.st;

import bufferstop.model.SourceText;
import java.util.ArrayList;
import java.util.List;

/** SEL and MUX: the input of that number, from 0. All inputs are evaluated always. */
final class Choice extends Expression {
  private final Expression selector;
  private final Expression[] inputs;

  Choice(Expression selector, List<Expression> inputs, SourceText source) {
    super(inputs.get(0).type(), source);
    this.selector = selector;
    this.inputs = inputs.toArray(Expression[]::new);
  }

  @Override
  public long bits(long[] cells) {
    long chosen = selector.bits(cells);
    long result = 0;
    for (int i = 0; i < inputs.length; i++) {
      long bits = inputs[i].bits(cells);
      if (i == chosen) {
        result = bits;
      }
    }
    return chosen >= 0 && chosen < inputs.length ? result : Faults.raise(cells);
  }

  @Override
  List<Expression> operands() {
    List<Expression> all = new ArrayList<>(List.of(inputs));
    all.add(0, selector);
    return all;
  }
}
