package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.Cause;
import bufferstop.model.Controller.Interlock;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.st.Expression;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Resolves permissives, interlocks and trips. */
final class InterlockLinker {
  private final Function<SourceText, Expression> condition;
  private final Layout layout;
  private final Diagnostics problems;

  InterlockLinker(Function<SourceText, Expression> condition, Layout layout, Diagnostics problems) {
    this.condition = condition;
    this.layout = layout;
    this.problems = problems;
  }

  InterlockGroup[] link(Controller controller, OutputTable outputs) {
    List<InterlockGroup> groups = new ArrayList<>();
    for (Interlock interlock : controller.interlocks()) {
      groups.add(group(interlock, outputs));
    }
    return groups.toArray(InterlockGroup[]::new);
  }

  private InterlockGroup group(Interlock interlock, OutputTable outputs) {
    boolean trip = interlock.kind() == InterlockKind.TRIP;
    if (interlock.kind() == InterlockKind.PERMISSIVE && !interlock.makesSafe().isEmpty()) {
      problems.add(
          Diagnostic.error(
                  interlock.makesSafe().get(0).position(),
                  "a permissive does not stop what runs, so it makes nothing safe")
              .help("make `" + interlock.name() + "` an interlock or a trip"));
    }
    String name = interlock.name();
    int[] first =
        Declarations.hasNamedCauses(interlock)
            ? interlock.causes().stream().mapToInt(c -> cell(name + ".first." + c.name())).toArray()
            : new int[0];
    return new InterlockGroup(
        interlock.causes().stream().map(Cause::condition).map(condition).toArray(Expression[]::new),
        trip,
        interlock.reset() == null ? null : condition.apply(interlock.reset()),
        cell(name + (trip ? ".tripped" : ".ok")),
        first,
        safeOutputs(interlock, outputs));
  }

  private int cell(String name) {
    return layout.controller().find(name).index();
  }

  private int[] safeOutputs(Interlock interlock, OutputTable outputs) {
    List<Integer> numbers = new ArrayList<>();
    for (Name output : interlock.makesSafe()) {
      int number = outputs.number(output.text());
      if (number < 0 && problems.doubts(output.text())) {
        continue;
      }
      if (number < 0) {
        Symbol other = layout.controller().find(output.text());
        problems.add(
            Diagnostic.error(output.position(), "no output named `" + output.text() + "`")
                .expected("an output")
                .note(
                    other == null ? Position.ofFile("") : other.declared(),
                    other == null ? "" : "`" + other.name() + "` is no output")
                .help(NearNames.question(output.text(), outputs.names())));
      } else {
        numbers.add(number);
      }
    }
    return numbers.stream().mapToInt(Integer::intValue).toArray();
  }
}
