package bufferstop.st;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import java.util.function.Function;

/** Finds what a name stands for, or says which name may have been meant. */
final class Names {
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
        Diagnostic.error(position, "no point named " + Wording.quote(name))
            .expected(expected)
            .help(NearNames.question(name, near));
    Symbol best = near.isEmpty() ? null : scope.find(near.get(0));
    return best == null || best.declared() == null
        ? unknown
        : unknown.note(best.declared(), "`" + best.name() + "` is declared here");
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
