package bufferstop.program;

import bufferstop.image.Layout;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.st.Expression;
import bufferstop.st.Statement;
import bufferstop.st.Terms;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * The first-out of a group of interlocks: those that acted first while none did, all of one scan
 * alike, kept with the time until none acts. Source: first-out [common practice, no source].
 */
final class GroupCode {
  private GroupCode() {}

  /**
   * To come after the interlocks.
   *
   * @param group its name
   * @param members whether each acts, by name, in file order
   */
  static Statement statement(String group, Map<String, Symbol> members, Layout layout) {
    String head = "groups." + group;
    Symbol acting = layout.remember(head + "#acting", Type.BOOL);
    Symbol firstTime = layout.controller().find(head + ".first_time");
    List<Statement> copied = new ArrayList<>(List.of(Terms.set(firstTime, Terms.now())));
    List<Statement> forgotten = new ArrayList<>(List.of(Terms.set(firstTime, Terms.micros(0))));
    List<Expression> any = new ArrayList<>();
    members.forEach(
        (name, member) -> {
          Symbol first = layout.controller().find(head + ".first." + name);
          copied.add(Terms.set(first, Terms.read(member)));
          forgotten.add(Terms.set(first, false));
          any.add(Terms.read(member));
        });
    return Statement.sequence(
        List.of(
            Terms.when(Terms.not(Terms.read(acting)), copied),
            Terms.set(acting, Terms.any(any)),
            Terms.when(Terms.not(Terms.read(acting)), forgotten)));
  }
}
