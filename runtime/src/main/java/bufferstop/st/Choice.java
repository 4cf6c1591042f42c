package bufferstop.st;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.objectweb.asm.Label;
import org.objectweb.asm.Opcodes;

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
  long bits(long[] cells, int at) {
    long chosen = selector.bits(cells, at);
    long result = 0;
    for (int i = 0; i < inputs.length; i++) {
      long bits = inputs[i].bits(cells, at);
      if (i == chosen) {
        result = bits;
      }
    }
    return checked(result, chosen, inputs.length, cells, place());
  }

  static long checked(long result, long chosen, int count, long[] cells, int place) {
    return chosen >= 0 && chosen < count ? result : Faults.raise(cells, place);
  }

  @Override
  boolean failsItself() {
    return selector.type() != Type.BOOL;
  }

  @Override
  List<Expression> operands() {
    List<Expression> all = new ArrayList<>(List.of(inputs));
    all.add(0, selector);
    return all;
  }

  @Override
  int ownBytes() {
    return 32 + 24 * inputs.length;
  }

  @Override
  void emit(Code code) {
    int chosen = code.local(2);
    int input = code.local(2);
    int result = code.local(2);
    code.put(selector);
    code.storeLocal(chosen);
    code.push(0L);
    code.storeLocal(result);
    for (int i = 0; i < inputs.length; i++) {
      Label another = new Label();
      code.put(inputs[i]);
      code.storeLocal(input);
      code.loadLocal(chosen);
      code.push((long) i);
      code.op(Opcodes.LCMP);
      code.jump(Opcodes.IFNE, another);
      code.loadLocal(input);
      code.storeLocal(result);
      code.label(another);
    }
    code.loadLocal(result);
    if (failsItself()) {
      code.loadLocal(chosen);
      code.push(inputs.length);
      code.place(place());
      code.call(Choice.class, "checked", "(JJI[JI)J");
    }
  }
}
