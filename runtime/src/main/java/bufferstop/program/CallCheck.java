package bufferstop.program;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.st.BlockType.Pin;
import bufferstop.st.Instance;
import bufferstop.st.Program;
import java.util.List;

/** Sees that the statements of a text call each block they have and give it what it needs. */
final class CallCheck {
  private CallCheck() {}

  /** The instances in the state of a block. */
  static void inBody(BodyScope scope, Program program, Diagnostics problems) {
    for (String name : scope.instances()) {
      Instance instance = scope.instance(name);
      List<Program.BlockCall> calls = calls(instance, program);
      if (calls.isEmpty()) {
        problems.add(
            Diagnostic.warning(
                    Code.NEVER_CALLED, instance.declared(), "`" + name + "` is never called")
                .help("call it in the body: `" + form(instance) + ";`"));
      } else {
        needed(instance, calls, problems);
      }
    }
  }

  /** The calls of an instance, in text order. */
  static List<Program.BlockCall> calls(Instance instance, Program program) {
    return program.blockCalls().stream().filter(c -> c.instance() == instance).toList();
  }

  /** Every input that is required must be given by one of the calls. */
  static void needed(Instance instance, List<Program.BlockCall> calls, Diagnostics problems) {
    if (calls.stream().anyMatch(c -> c.inputs().contains(-1))) {
      return; // a name that is wrong may be the one that seems to be missing
    }
    List<Pin> pins = instance.type().inputs();
    for (int i = 0; i < pins.size(); i++) {
      int number = i;
      Pin pin = pins.get(i);
      if (pin.required() && calls.stream().noneMatch(c -> c.inputs().contains(number))) {
        problems.add(
            Diagnostic.error(
                    Code.MISSING_INPUT,
                    calls.get(0).position(),
                    "`" + instance.name() + "` is never given its input " + pin.name())
                .expected(pin.name() + ", " + pin.of().words())
                .help("give it in this call: `" + pin.name() + " := ...`"));
      }
    }
  }

  /** How an instance is called: {@code t1(IN := ..., PT := ...)}. */
  static String form(Instance instance) {
    List<String> pins =
        instance.type().inputs().stream()
            .filter(Pin::required)
            .map(p -> p.name() + " := ...")
            .toList();
    return instance.name() + "(" + String.join(", ", pins) + ")";
  }
}
