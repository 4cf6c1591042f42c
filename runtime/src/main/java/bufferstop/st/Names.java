package bufferstop.st;

import bufferstop.model.ArrayBounds;
import bufferstop.model.ArrayOf;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Enumeration;
import bufferstop.model.NamedConstant;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Routine;
import bufferstop.model.Scope;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
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
  Expression value(String name, SourceText source, Type fitting, Enumeration likely) {
    Expression alias = aliases.apply(name);
    if (alias != null) {
      return alias;
    }
    NamedConstant constant = scope.definitions().constant(name);
    if (constant != null) {
      return constant.type() == Type.STRING
          ? new StringLiteral(constant.text(), source)
          : new Constant(constant.type(), constant.enumeration(), constant.bits(), source);
    }
    List<Enumeration> members = scope.definitions().enumerationsWith(name);
    if (!members.isEmpty()) {
      return member(name, source, likely, members);
    }
    String expected = likely == null ? Wording.expression(fitting) : Wording.value(likely);
    Symbol symbol = symbol(name, source.whole(), fitting, expected);
    return symbol == null ? null : read(symbol, source);
  }

  /** The value of a symbol. */
  static Expression read(Symbol symbol, SourceText source) {
    return symbol.type() == Type.STRING ? new FirstCell(symbol, source) : new Read(symbol, source);
  }

  /** A name that is a value of one enumeration or several, and perhaps a point's as well. */
  private Expression member(
      String name, SourceText source, Enumeration likely, List<Enumeration> members) {
    Symbol symbol = scope.find(name);
    boolean wanted = likely != null && members.contains(likely);
    boolean isPoint = symbol != null && !(wanted && !likely.equals(symbol.enumeration()));
    if (isPoint) {
      return read(symbol, source);
    }
    if (!wanted && members.size() > 1) {
      List<String> full = members.stream().map(m -> m.name() + "#" + name).toList();
      problems.add(
          Diagnostic.error(
                  Code.WRONG_TYPE,
                  source.whole(),
                  Wording.quote(name) + " is a value of several types")
              .expected(String.join(" or ", full)));
      return null;
    }
    Enumeration of = wanted ? likely : members.get(0);
    return new Constant(Type.ENUM, of, of.number(name), source);
  }

  /** A value written with its type, {@code mode#hand}; null after a diagnostic. */
  Expression member(Literal.Member member, SourceText source) {
    Enumeration enumeration = scope.definitions().enumeration(member.type());
    if (enumeration == null) {
      List<String> types = new ArrayList<>();
      scope.definitions().enumerations().forEach(e -> types.add(e.name()));
      Arrays.stream(Type.values()).filter(Type::isPlain).forEach(t -> types.add(t.name()));
      problems.add(
          Diagnostic.error(
                  Code.BAD_LITERAL,
                  source.whole(),
                  "`" + member.type().toUpperCase(Locale.ROOT) + "` is no type of literals")
              .help(NearNames.question(member.type(), types)));
      return null;
    }
    int number = enumeration.number(member.value());
    if (number >= 0) {
      return new Constant(Type.ENUM, enumeration, number, source);
    }
    problems.add(
        Diagnostic.error(
                Code.UNKNOWN_NAME,
                source.whole(),
                "`" + enumeration.name() + "` has no value `" + member.value() + "`")
            .expected(Wording.values(enumeration))
            .help(NearNames.question(member.value(), enumeration.values())));
    return null;
  }

  /** Whether a name may be a value of an enumeration. */
  boolean mayBeMember(String name) {
    return !scope.definitions().enumerationsWith(name).isEmpty();
  }

  /** The constant of that name, or null. */
  NamedConstant constant(String name) {
    return scope.definitions().constant(name);
  }

  /** The array of that name, or null. */
  ArrayOf array(String name) {
    return scope.array(name);
  }

  /** Says that no array has that name. */
  void noArray(String name, Position position) {
    Symbol symbol = scope.find(name);
    if (symbol == null && problems.doubts(name)) {
      return;
    }
    List<String> arrays = scope.definitions().arrays().stream().map(ArrayBounds::name).toList();
    problems.add(
        Diagnostic.error(
                symbol == null ? Code.UNKNOWN_NAME : Code.WRONG_THING,
                position,
                symbol == null
                    ? "no array named " + Wording.quote(name)
                    : Wording.quote(name) + " is " + symbol.typeName() + ", no array")
            .help(NearNames.question(name, arrays)));
  }

  /** The element of a constant index. */
  Symbol element(ArrayOf array, long index) {
    return scope.find(array.bounds().element(index));
  }

  /** Memory of an expression, or null where it can have none. */
  Symbol scratch(int cells) {
    return scope.scratch(cells);
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
          Diagnostic.error(
                  Code.WRONG_THING,
                  position,
                  "`" + instance.name() + "` is a block, not a function")
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
        Diagnostic.error(Code.UNKNOWN_NAME, position, "no function named `" + call.written() + "`")
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
            ? Diagnostic.error(Code.NO_VALUE, position, "the value of `" + name + "` is not used")
                .expected("a block that is called, or an assignment")
                .help("write `name := " + name + "(...);`")
            : Diagnostic.error(Code.UNKNOWN_NAME, position, "no block named `" + name + "`")
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
    ArrayBounds array = scope.definitions().array(name);
    if (array != null) {
      return Diagnostic.error(Code.WRONG_THING, position, Wording.quote(name) + " is an array")
          .expected("one element, as in `" + array.element(array.least()) + "`");
    }
    List<String> near = near(name, fitting);
    Diagnostic unknown =
        Diagnostic.error(
                Code.UNKNOWN_NAME, position, "no " + kind() + " named " + Wording.quote(name))
            .expected(expected)
            .help(near.isEmpty() ? helpAbout(name) : NearNames.question(name, near));
    Symbol best = near.isEmpty() ? null : scope.find(near.get(0));
    return best == null || best.declared() == null
        ? unknown
        : unknown.note(best.declared(), "`" + best.name() + "` is declared here");
  }

  private String kind() {
    if (scope instanceof CallScope calls) {
      return calls.kindOfNames();
    }
    return scope instanceof Defined ? "constant" : "point";
  }

  private String helpAbout(String name) {
    return scope instanceof CallScope calls ? calls.helpAbout(name) : "";
  }

  /** Names of a type that fits; when none of them is near, any. */
  private List<String> near(String name, Type fitting) {
    List<String> fit = scope.names().stream().filter(known -> fits(known, fitting)).toList();
    List<String> near = NearNames.of(name, fit);
    if (!near.isEmpty()) {
      return near;
    }
    List<String> all = new ArrayList<>(scope.names());
    scope.definitions().constants().forEach(c -> all.add(c.name()));
    scope.definitions().enumerations().forEach(e -> all.addAll(e.values()));
    return NearNames.of(name, all);
  }

  private boolean fits(String name, Type fitting) {
    Symbol symbol = scope.find(name);
    return fitting == null || symbol != null && symbol.type().widensTo(fitting);
  }
}
