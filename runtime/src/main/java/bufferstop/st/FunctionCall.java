package bufferstop.st;

import bufferstop.model.Enumeration;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import java.util.List;
import org.objectweb.asm.Opcodes;

/**
 * A call of a user's function. All inputs are evaluated before any is stored, since an input may
 * itself call the function; a STRING it gives is copied to cells of the call's own, since another
 * call may follow in the same expression. An error inside counts like any other.
 */
final class FunctionCall extends Expression {
  private final UserFunction function;
  private final List<Expression> inputs;
  private final Symbol memory; // of a STRING, else null

  /**
   * A call.
   *
   * @param inputs one for each of the function, of its type
   * @param memory cells for the value of a function that gives a STRING, else null
   */
  FunctionCall(UserFunction function, List<Expression> inputs, Symbol memory, SourceText source) {
    super(function.type(), source);
    this.function = function;
    this.inputs = List.copyOf(inputs);
    this.memory = memory;
  }

  @Override
  public Enumeration enumeration() {
    return function.result().enumeration();
  }

  @Override
  int capacity() {
    return function.result().length();
  }

  @Override
  long bits(long[] cells, int at) {
    long[] values = new long[inputs.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = inputs.get(i).bits(cells, at);
    }
    for (int i = 0; i < values.length; i++) {
      int cell = function.frame().get(i).index();
      ValueType type = function.inputs().get(i).of();
      if (type.isArray()) {
        Stores.copy(values[i], cell, type.cells(), cells);
      } else if (type.type() == Type.STRING) {
        Strings.copy(values[i], cell, type.length(), cells);
      } else {
        cells[cell] = values[i];
      }
    }
    function.body().run(cells, 0);
    Symbol result = function.result();
    if (memory == null) {
      return cells[result.index()];
    }
    Strings.copy(result.index(), Read.cell(memory, at), result.length(), cells);
    return Read.cell(memory, at);
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
    return 48 + 24 * inputs.size();
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
      store(function.frame().get(i), function.inputs().get(i).of(), values[i], code);
    }
    code.cells();
    code.push(0);
    code.call(function.body());
    if (memory == null) {
      code.load(function.result());
      return;
    }
    code.cell(function.result());
    code.op(Opcodes.I2L);
    copyText(memory, function.result().length(), code);
    code.cell(memory);
    code.op(Opcodes.I2L);
  }

  private static void store(Symbol input, ValueType type, int value, Code code) {
    if (type.isArray()) {
      code.loadLocal(value);
      code.cell(input);
      code.push(type.cells());
      code.cells();
      code.call(Stores.class, "copy", "(JII[J)V");
    } else if (type.type() == Type.STRING) {
      code.loadLocal(value);
      copyText(input, type.length(), code);
    } else {
      code.address(input);
      code.loadLocal(value);
      code.store();
    }
  }

  /** From the text on the stack. */
  private static void copyText(Symbol into, int length, Code code) {
    code.cell(into);
    code.push(length);
    code.cells();
    code.call(Strings.class, "copy", "(JII[J)V");
  }
}
