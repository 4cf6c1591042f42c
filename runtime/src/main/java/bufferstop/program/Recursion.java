package bufferstop.program;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.st.Body;
import bufferstop.st.Program;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Finds functions that call themselves, directly or through others, which nothing would bound. */
final class Recursion {
  private record Function(String name, List<Program.Call> calls) {}

  private final Diagnostics problems;
  private final Map<Body, Function> functions = new LinkedHashMap<>();
  private final List<Body> path = new ArrayList<>();
  private final List<Body> done = new ArrayList<>();

  Recursion(Diagnostics problems) {
    this.problems = problems;
  }

  /** Adds a function with the calls in its body. */
  void add(Body body, String name, List<Program.Call> calls) {
    functions.put(body, new Function(name, calls));
  }

  /** Reports each circle once, at the call that closes it. */
  void report() {
    functions.keySet().forEach(this::walk);
  }

  private void walk(Body body) {
    if (done.contains(body)) {
      return;
    }
    path.add(body);
    for (Program.Call call : functions.get(body).calls) {
      int first = path.indexOf(call.function().body());
      if (first >= 0) {
        circle(first, call);
      } else {
        walk(call.function().body());
      }
    }
    path.remove(path.size() - 1);
    done.add(body);
  }

  private void circle(int first, Program.Call closing) {
    List<String> names = new ArrayList<>();
    for (Body body : path.subList(first, path.size())) {
      names.add(functions.get(body).name);
    }
    String name = closing.function().name();
    names.add(name);
    problems.add(
        Diagnostic.error(
                Code.RECURSION,
                closing.position(),
                "`" + name + "` calls itself: " + String.join(", ", names))
            .expected("functions that do not call each other in a circle")
            .help("write a `FOR` loop"));
  }
}
