package bufferstop.st;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Symbol;
import bufferstop.model.ValueType;
import bufferstop.st.BlockType.Pin;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * Reads one call of a block: {@code t1(IN := x, PT := T#5s, Q => done);}. An input that is left out
 * keeps its value (IEC 61131-3:2003, 2.5.2 [from memory, not re-read]).
 */
final class CallReader {
  private final StatementReader statements;
  private final Parser parser;
  private final Typing typing;
  private final Diagnostics problems;
  private final List<Statement> inputs = new ArrayList<>();
  private final List<Statement> outputs = new ArrayList<>();
  private final List<Integer> given = new ArrayList<>();
  private boolean whole = true;

  CallReader(StatementReader statements, Parser parser, Typing typing, Diagnostics problems) {
    this.statements = statements;
    this.parser = parser;
    this.typing = typing;
    this.problems = problems;
  }

  /**
   * From the bracket on.
   *
   * @param instance null when there is none of that name, which was reported
   * @return null when it cannot be run
   */
  Statement read(Instance instance) {
    Token open = parser.take();
    if (!parser.peek().is(")")) {
      do {
        pin(instance);
      } while (!parser.hasFailed() && parser.takeIf(","));
    }
    parser.close(open);
    if (instance == null || !whole || parser.hasFailed()) {
      return null;
    }
    Statement call = new Statement.Call(instance.type().body(), instance.first(), inputs);
    if (outputs.isEmpty()) {
      return call;
    }
    outputs.add(0, call);
    return new Statement.Sequence(outputs);
  }

  /** The numbers of the inputs that were given. */
  List<Integer> given() {
    return given;
  }

  private void pin(Instance instance) {
    Token name = parser.peek();
    if (name.kind() == Token.Kind.NAME && parser.peekSecond().is(":=")) {
      parser.take();
      parser.take();
      input(instance, name);
    } else if (name.kind() == Token.Kind.NAME && parser.peekSecond().is("=>")) {
      parser.take();
      parser.take();
      output(instance, name);
    } else {
      whole = false;
      Syntax syntax = parser.expression();
      typing.type(syntax, null);
      if (!parser.hasFailed() && instance != null) {
        typing.wrong(Code.BAD_CALL, syntax, "an input without its name", form(instance), "");
      }
    }
  }

  private void input(Instance instance, Token name) {
    Syntax syntax = parser.expression();
    if (instance == null) {
      typing.type(syntax, null);
      return;
    }
    List<Pin> pins = instance.type().inputs();
    String none = "a " + instance.type().name() + " has no input";
    int number = Pins.find(pins, name.text(), parser.place(name), none, typing);
    Expression value =
        number < 0 ? typing.type(syntax, null) : typing.given(syntax, pins.get(number).of());
    boolean twice = number >= 0 && given.contains(number);
    if (twice) {
      String message = "the input `" + pins.get(number).name() + "` is given twice";
      problems.add(
          Diagnostic.error(Code.BAD_CALL, parser.place(name), message).help("keep one of them"));
    }
    given.add(number);
    if (number >= 0 && value != null && !twice && !parser.hasFailed()) {
      inputs.add(Stores.into(instance.input(number), pins.get(number).of(), value));
    } else {
      whole = false;
    }
  }

  private void output(Instance instance, Token name) {
    Token token = parser.peek();
    if (token.kind() != Token.Kind.NAME && token.kind() != Token.Kind.BROKEN_VALUE) {
      parser.fail(
          Diagnostic.error(
                  Code.SYNTAX,
                  parser.place(token),
                  "a name is missing before " + Parser.found(token))
              .expected("what the output is assigned to: `" + name.text() + " => name`"));
      return;
    }
    Symbol target = statements.target(parser.take());
    if (instance == null) {
      return;
    }
    List<Pin> pins = instance.type().outputs();
    String none = "a " + instance.type().name() + " has no output";
    int number = Pins.find(pins, name.text(), parser.place(name), none, typing);
    whole &= target != null && number >= 0;
    if (target == null || number < 0) {
      return;
    }
    Pin pin = pins.get(number);
    boolean fits =
        pin.type().widensTo(target.type())
            && Objects.equals(pin.of().enumeration(), target.enumeration());
    if (!fits) {
      String message = "`" + pin.name() + "` is " + pin.of().words() + ", `" + target.name();
      problems.add(
          Diagnostic.error(
                  Code.WRONG_TYPE, parser.place(token), message + "` is " + target.typeName())
              .expected("a name of type " + pin.of().words()));
      whole = false;
      return;
    }
    Expression value = Names.read(instance.output(number), typing.part(name.start(), name.end()));
    ValueType type = new ValueType(target.type(), null, target.length(), null);
    outputs.add(Stores.into(target, type, Typing.widened(value, target.type())));
  }

  /** How an instance is called: {@code t1(IN := ..., PT := ...)}. */
  private static String form(Instance instance) {
    List<String> pins =
        instance.type().inputs().stream()
            .filter(Pin::required)
            .map(p -> p.name() + " := ...")
            .toList();
    return instance.name() + "(" + String.join(", ", pins) + ")";
  }
}
