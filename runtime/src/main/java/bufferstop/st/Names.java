package bufferstop.st;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Routine;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** Finds what a name stands for, or says which name may have been meant. */
final class Names {
  private static final String OWN_FUNCTIONS =
      "functions of your own may be used in the controller only";

  private final Scope scope;
  private final Function<String, Expression> aliases;
  private final Diagnostics problems;

  Names(Scope scope, Function<String, Expression> aliases, Diagnostics problems) {
    this.scope = scope;
    this.aliases = aliases;
    this.problems = problems;
  }

  /** The value of a name, or null after a diagnostic. */
  Expression value(String name, SourceText source, Type fitting) {
    Expression alias = aliases.apply(name);
    if (alias != null) {
      return alias;
    }
    Symbol symbol = symbol(name, source.whole(), fitting, Wording.expression(fitting));
    return symbol == null ? null : new Read(symbol, source);
  }

  /** The user's function of that name, or null. */
  UserFunction function(String name) {
    return scope instanceof CallScope calls ? calls.function(name) : null;
  }

  /** The instance of a block of that name, or null. */
  Instance instance(String name) {
    return scope instanceof CallScope calls ? calls.instance(name) : null;
  }

  /** Reports a call of a function that is not there. Returns null. */
  Expression noFunction(Syntax.Call call, Position position, String help) {
    if (Routine.isDoubted(call.written(), problems)) {
      return null;
    }
    Instance instance = instance(call.written());
    if (instance != null) {
      String output = instance.name() + "." + instance.type().outputs().get(0).name();
      problems.add(
          Diagnostic.error(position, "`" + instance.name() + "` is a block, not a function")
              .expected("a statement that calls it: `" + instance.name() + "(...);`")
              .help("call it before, then read `" + output + "`"));
      return null;
    }
    List<String> known = new ArrayList<>();
    if (scope instanceof CallScope calls) {
      known.addAll(calls.functions());
    }
    known.addAll(Calls.known());
    String near = NearNames.question(call.written(), known);
    String elsewhere = scope instanceof CallScope ? "" : OWN_FUNCTIONS;
    String advice = help.isEmpty() ? near : help;
    problems.add(
        Diagnostic.error(position, "no function named `" + call.written() + "`")
            .help(advice.isEmpty() ? elsewhere : advice));
    return null;
  }

  /** Reports a call of a block that is not there. */
  void noInstance(String name, Position position) {
    if (problems.doubts(name)) {
      return;
    }
    List<String> known = scope instanceof CallScope c ? List.copyOf(c.instances()) : List.of();
    UserFunction function = function(name);
    boolean isFunction = function != null || Calls.isStandard(name);
    String near = NearNames.question(name, known);
    problems.add(
        isFunction
            ? Diagnostic.error(position, "the value of `" + name + "` is not used")
                .expected("a block that is called, or an assignment")
                .help("write `name := " + name + "(...);`")
            : Diagnostic.error(position, "no block named `" + name + "`")
                .expected(known.isEmpty() ? "" : String.join(", ", known))
                .help(near.isEmpty() ? "declare it: `" + name + ": {block: TON}`" : near));
  }

  /** The symbol of a name, or null after a diagnostic. */
  Symbol symbol(String name, Position position, Type fitting, String expected) {
    Symbol symbol = scope.find(name);
    if (symbol == null && !problems.doubts(name)) {
      problems.add(unknown(name, position, fitting, expected));
      doubtHead(name);
    }
    return symbol;
  }

  /** Something that is not there is said once, not for each name dotted below it. */
  private void doubtHead(String name) {
    int dot = name.indexOf('.');
    boolean known =
        dot < 0 || scope.names().stream().anyMatch(n -> n.regionMatches(true, 0, name, 0, dot + 1));
    if (!known) {
      problems.doubt(name.substring(0, dot));
    }
  }

  private Diagnostic unknown(String name, Position position, Type fitting, String expected) {
    List<String> near = near(name, fitting);
    Diagnostic unknown =
        Diagnostic.error(position, "no " + kind() + " named " + Wording.quote(name))
            .expected(expected)
            .help(near.isEmpty() ? helpAbout(name) : NearNames.question(name, near));
    Symbol best = near.isEmpty() ? null : scope.find(near.get(0));
    return best == null || best.declared() == null
        ? unknown
        : unknown.note(best.declared(), "`" + best.name() + "` is declared here");
  }

  private String kind() {
    return scope instanceof CallScope calls ? calls.kindOfNames() : "point";
  }

  private String helpAbout(String name) {
    return scope instanceof CallScope calls ? calls.helpAbout(name) : "";
  }

  /** Names of a type that fits; when none of them is near, any. */
  private List<String> near(String name, Type fitting) {
    List<String> fit = scope.names().stream().filter(known -> fits(known, fitting)).toList();
    List<String> near = NearNames.of(name, fit);
    return near.isEmpty() ? NearNames.of(name, scope.names()) : near;
  }

  private boolean fits(String name, Type fitting) {
    Symbol symbol = scope.find(name);
    return fitting == null || symbol != null && symbol.type().widensTo(fitting);
  }
}
