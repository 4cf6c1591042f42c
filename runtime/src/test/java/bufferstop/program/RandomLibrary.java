package bufferstop.program;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.LongBinaryOperator;

/**
 * Functions f0, f1, ... of two INTs, each of which calls earlier ones, and blocks b0, b1, ... that
 * call functions and hold earlier blocks and timers.
 */
final class RandomLibrary {
  private static final int FUNCTIONS = 5;
  private static final int BLOCKS = 4;

  private final SplittableRandom random;
  private int loops; // open ones

  RandomLibrary(SplittableRandom random) {
    this.random = random;
  }

  String project() {
    StringBuilder text = new StringBuilder("project: small\nscan: T#1ms\nfunctions:\n");
    for (int i = 0; i < FUNCTIONS; i++) {
      text.append(
          """
            f%d:
              inputs: {a: {type: INT}, b: {type: INT, initial: %d}}
              returns: INT
              locals: {m: {type: INT, initial: %d}, k: {type: INT}, j: {type: INT}}
              body: |
          """
              .formatted(i, random.nextInt(-9, 9), random.nextInt(-9, 9)));
      String[] names = {"a", "b", "m", "f" + i};
      text.append(statements(names, new String[] {"m", "f" + i}, i, 3).indent(6));
      text.append("      f%d := f%d + %s;\n".formatted(i, i, value(names, i, 2)));
    }
    text.append("function_blocks:\n");
    for (int i = 0; i < BLOCKS; i++) {
      block(text, i);
    }
    return text + controller();
  }

  private void block(StringBuilder text, int number) {
    String held = number == 0 ? "{block: CTU}" : "{block: b" + random.nextInt(number) + "}";
    text.append(
        """
          b%d:
            inputs: {a: {type: INT}, b: {type: INT, initial: %d}}
            outputs: {o: {type: INT}, p: {type: INT, initial: 3}}
            state: {m: {type: INT}, k: {type: INT}, j: {type: INT}, t: {block: TON}, h: %s}
            body: |
        """
            .formatted(number, random.nextInt(-9, 9), held));
    String[] names = {"a", "b", "o", "p", "m"};
    String[] targets = {"o", "p", "m"};
    text.append(statements(names, targets, FUNCTIONS, 3).indent(6));
    text.append("      t(IN := %s > 3, PT := T#2ms);\n".formatted(value(names, FUNCTIONS, 2)));
    String pins = number == 0 ? "CU := t.Q, PV := %s, CV => %s" : "a := %s, o => %s";
    text.append(
        ("      IF t.ET < T#2ms OR a > 0 THEN h(" + pins + "); END_IF;\n")
            .formatted(value(names, FUNCTIONS, 2), targets[random.nextInt(3)]));
    text.append(statements(names, targets, FUNCTIONS, 2).indent(6));
  }

  private String controller() {
    String[] names = {"x", "y", "i", "one.o", "two.p", "three.o"};
    return """
    controller:
      operator: {x: {type: INT}, y: {type: INT}}
      internal: {i: {type: INT}, k: {type: INT}, j: {type: INT}}
      blocks:
        one: {block: b3, a: "%s"}
        two: {block: b2, a: "%s", b: y}
        three: {block: b1}
      logic: |
        FOR k := 1 TO 2 DO three(a := x + k, o => i); END_FOR;
    """
            .formatted(value(new String[] {"x", "y"}, FUNCTIONS, 2), value(names, FUNCTIONS, 2))
        + ("i := " + value(names, FUNCTIONS, 3) + ";\n").indent(4);
  }

  private String statements(String[] names, String[] targets, int functions, int depth) {
    StringBuilder text = new StringBuilder();
    for (int count = random.nextInt(1, 4); count > 0; count--) {
      text.append(statement(names, targets, functions, depth));
    }
    return text.toString();
  }

  private String statement(String[] names, String[] targets, int functions, int depth) {
    int choice = depth == 0 ? 0 : random.nextInt(5);
    if (choice == 1) {
      return "IF %s > %s THEN\n%sELSE\n%sEND_IF;\n"
          .formatted(
              value(names, functions, 1),
              value(names, functions, 1),
              statements(names, targets, functions, depth - 1),
              statements(names, targets, functions, depth - 1));
    }
    if (choice == 2 && loops < 2) {
      String control = loops == 0 ? "k" : "j";
      loops++;
      String body = statements(names, targets, functions, depth - 1);
      loops--;
      return "FOR %s := 1 TO %d DO\n%sEND_FOR;\n".formatted(control, random.nextInt(0, 5), body);
    }
    if (choice == 3) {
      String[] words = {"RETURN", "EXIT", "CONTINUE"};
      String word = words[loops == 0 ? 0 : random.nextInt(3)];
      return "IF %s > 20 THEN %s; END_IF;\n".formatted(value(names, functions, 1), word);
    }
    String target = targets[random.nextInt(targets.length)];
    return target + " := " + value(names, functions, 2) + ";\n";
  }

  private String value(String[] names, int functions, int depth) {
    switch (depth == 0 ? 0 : random.nextInt(5)) {
      case 1:
        return "(%s %s %s)"
            .formatted(
                value(names, functions, depth - 1),
                new String[] {"+", "-", "*", "/", "MOD"}[random.nextInt(5)],
                value(names, functions, depth - 1));
      case 2, 3:
        if (functions > 0) {
          return call(names, functions, depth - 1);
        }
        return "MIN(%s, 30)".formatted(value(names, functions, depth - 1));
      default:
        return names[random.nextInt(names.length)];
    }
  }

  private String call(String[] names, int functions, int depth) {
    String a = value(names, functions, depth);
    String b = value(names, functions, depth);
    String name = "f" + random.nextInt(functions);
    return switch (random.nextInt(3)) {
      case 0 -> name + "(" + a + ")";
      case 1 -> name + "(" + a + ", " + b + ")";
      default -> name + "(b := " + b + ", a := " + a + ")";
    };
  }

  /** Functions of two DINTs, each calling earlier ones, and the same written down in Java. */
  static final class Chain {
    private final SplittableRandom random;
    private final StringBuilder text = new StringBuilder("project: small\nfunctions:\n");
    private final List<LongBinaryOperator> known = new ArrayList<>();

    Chain(SplittableRandom random) {
      this.random = random;
      for (int i = 0; i < FUNCTIONS; i++) {
        add();
      }
      text.append(
          """
          controller:
            operator: {x: {type: DINT}, y: {type: DINT}}
            internal: {i: {type: DINT}}
            logic: i := f%d(x, y);
          """
              .formatted(FUNCTIONS - 1));
    }

    private void add() {
      List<LongBinaryOperator> before = List.copyOf(known);
      text.append(
          "  f%d: {inputs: {a: {type: DINT}, b: {type: DINT}}, returns: DINT, body: \"f%d := "
              .formatted(before.size(), before.size()));
      LongBinaryOperator value = value(before, 3);
      text.append(" MOD 1000;\"}\n");
      known.add((a, b) -> value.applyAsLong(a, b) % 1000);
    }

    private LongBinaryOperator value(List<LongBinaryOperator> before, int depth) {
      int choice = depth == 0 ? 0 : random.nextInt(4);
      if (choice == 1) {
        text.append("(");
        LongBinaryOperator left = value(before, depth - 1);
        text.append(" - ");
        LongBinaryOperator right = value(before, depth - 1);
        text.append(")");
        return (a, b) -> left.applyAsLong(a, b) - right.applyAsLong(a, b);
      }
      if (choice > 1 && !before.isEmpty()) {
        int number = random.nextInt(before.size());
        text.append("f" + number + "(");
        LongBinaryOperator left = value(before, depth - 1);
        text.append(", ");
        LongBinaryOperator right = value(before, depth - 1);
        text.append(")");
        LongBinaryOperator function = before.get(number);
        return (a, b) -> function.applyAsLong(left.applyAsLong(a, b), right.applyAsLong(a, b));
      }
      boolean first = random.nextBoolean();
      text.append(first ? "a" : "b");
      return (a, b) -> first ? a : b;
    }

    String project() {
      return text.toString();
    }

    long value(long x, long y) {
      return known.get(known.size() - 1).applyAsLong(x, y);
    }
  }
}
