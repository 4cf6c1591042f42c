package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import java.util.List;

/**
 * A call of a user's function. All inputs are evaluated before any is stored, since an input may
 * itself call the function. An error inside counts like any other.
 */
final class FunctionCall extends Expression {
  private final UserFunction function;
  private final List<Expression> inputs;

  /**
   * A call.
   *
   * @param inputs one for each of the function, of its type
   */
  FunctionCall(UserFunction function, List<Expression> inputs, SourceText source) {
    super(function.type(), source);
    this.function = function;
    this.inputs = List.copyOf(inputs);
  }

  @Override
  long bits(long[] cells, int at) {
    long[] values = new long[inputs.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = inputs.get(i).bits(cells, at);
    }
    for (int i = 0; i < values.length; i++) {
      cells[function.frame().get(i).index()] = values[i];
    }
    function.body().run(cells, 0);
    return cells[function.result().index()];
  }

  @Override
  List<Expression> operands() {
    return inputs;
  }

  /** Whatever its inputs, the body may meet an error. */
  @Override
  boolean mayFail() {
    return true;
  }

  @Override
  boolean readsAnything() {
    return true;
  }

  @Override
  int ownBytes() {
    return 24 + 20 * inputs.size();
  }

  @Override
  void emit(Code code) {
    int[] values = new int[inputs.size()];
    for (int i = 0; i < values.length; i++) {
      code.put(inputs.get(i));
      values[i] = code.local(2);
      code.storeLocal(values[i]);
    }
    for (int i = 0; i < values.length; i++) {
      Symbol cell = function.frame().get(i);
      code.address(cell);
      code.loadLocal(values[i]);
      code.store();
    }
    code.cells();
    code.push(0);
    code.call(function.body());
    code.load(function.result());
  }
}
