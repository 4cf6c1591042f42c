package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is compiled does what the tree does as it stands, however long the program is. */
class CompiledProperties {
  private static final long SEED = Long.getLong("bufferstop.seed", 20261125);
  private static final int LONGEST_COMPILED = 8_000; // HotSpot leaves longer methods uncompiled

  private final SplittableRandom random = new SplittableRandom(SEED);

  private static Cells cells() {
    return new Cells()
        .with(Type.INT, "x", "y", "z")
        .with(Type.SINT, "p", "q", "s")
        .with(Type.LREAL, "a", "b", "c");
  }

  private static Program read(String text, Cells cells) {
    Program program = StatementReader.read(SourceText.of(text), cells, s -> null, cells.problems);
    assertEquals(List.of(), cells.problems.sorted(), text);
    return program;
  }

  private void agreesOverManyScans(Program program, Cells cells, int scans) {
    for (int scan = 0; scan < scans; scan++) {
      for (String name : new String[] {"x", "y", "z"}) {
        cells.set(name, random.nextInt(-300, 300));
      }
      for (String name : new String[] {"a", "b", "c"}) {
        cells.set(name, random.nextInt(50) == 0 ? Double.NaN : random.nextInt(-40, 40) / 8.0);
      }
      cells.run(program.statements());
    }
  }

  private static void hasNoLongMethod(Program program) {
    Statement statements = program.statements();
    statements.fit();
    int longest = Collections.max(MethodSizes.of(ClassOutput.of(statements)));
    assertTrue(longest <= LONGEST_COMPILED, "a method of " + longest + " bytes");
  }

  private String real(int depth) {
    if (depth == 0) {
      return List.of("a", "b", "c", "2.5", "0.0", "INT_TO_LREAL(x)").get(random.nextInt(6));
    }
    String one = real(depth - 1);
    String other = real(depth - 1);
    return switch (random.nextInt(9)) {
      case 0 -> "(" + one + " + " + other + ")";
      case 1 -> "(" + one + " - " + other + ")";
      case 2 -> "(" + one + " * " + other + ")";
      case 3 -> "(" + one + " / (" + other + " + c))";
      case 4 -> "MAX(" + one + ", " + other + ", a)";
      case 5 -> "SEL(" + one + " < " + other + ", a, b)";
      case 6 -> "MUX(x MOD 4, " + one + ", " + other + ", c)";
      case 7 -> "ABS(-(" + one + "))";
      default -> "SQRT(ABS(" + one + "))";
    };
  }

  @Test
  void statementsOverManyScans() {
    for (int round = 0; round < 40; round++) {
      Cells cells = cells();
      RandomStatements statements = new RandomStatements(random);
      statements.list(4);
      Program program = read(statements.text(), cells);
      hasNoLongMethod(program);
      agreesOverManyScans(program, cells, 100);
    }
  }

  @Test
  void realExpressionsOverManyScans() {
    for (int round = 0; round < 40; round++) {
      Cells cells = cells();
      String text = "a := %s; IF %s > %s THEN b := %s; END_IF;";
      Program program = read(text.formatted(real(4), real(2), real(3), real(3)), cells);
      hasNoLongMethod(program);
      agreesOverManyScans(program, cells, 50);
    }
  }

  @Test
  void aVeryLongList() {
    Cells cells = cells();
    String text =
        IntStream.range(0, 6_000)
            .mapToObj(i -> "x := y + %d; IF x > z THEN y := y - 1; END_IF;\n".formatted(i % 700))
            .collect(Collectors.joining());
    Program program = read(text, cells);
    agreesOverManyScans(program, cells, 3);
  }

  @Test
  void longBranchesInsideEachOther() {
    Cells cells = cells();
    StringBuilder text = new StringBuilder();
    for (int depth = 0; depth < 20; depth++) {
      text.append("FOR p := 1 TO 1 DO IF x > %d THEN\n".formatted(-280 + 20 * depth));
      text.append("y := y + 1; IF y > 290 THEN EXIT; END_IF;\n".repeat(60));
      text.append("ELSE z := z - 1; END_IF; END_FOR;\n");
    }
    text.append("CASE x OF\n");
    for (int label = 0; label < Case.MOST_LABELS; label++) {
      text.append(label + ": " + "y := y + 1; z := z + y;\n".repeat(10));
    }
    text.append("END_CASE;\n");
    Program program = read(text.toString(), cells);
    hasNoLongMethod(program);
    agreesOverManyScans(program, cells, 300);
  }

  @Test
  void exitsFromPartsInMethodsOfTheirOwn() {
    Cells cells = cells();
    String filling = "y := y + 1;\n".repeat(200);
    String text =
        """
        FOR p := 1 TO 5 DO
          FOR q := 1 TO 5 DO
            IF x > 0 THEN %1$s IF y > z THEN EXIT; END_IF; %1$s ELSE %1$s END_IF;
          END_FOR;
          IF x < -200 THEN %1$s EXIT; END_IF;
          z := z + 1;
        END_FOR;
        """
            .formatted(filling);
    Program program = read(text, cells);
    hasNoLongMethod(program);
    agreesOverManyScans(program, cells, 500);
  }

  @Test
  void wideExpressions() {
    Cells cells = cells();
    String terms =
        IntStream.range(0, 100).mapToObj(i -> "a * b").collect(Collectors.joining(" + "));
    String inputs =
        IntStream.range(0, 60).mapToObj(i -> "(" + terms + ")").collect(Collectors.joining(", "));
    Program program = read("c := MAX(" + inputs + "); b := MUX(x, " + inputs + ");", cells);
    hasNoLongMethod(program);
    agreesOverManyScans(program, cells, 10);
  }

  @Test
  void theSameProgramIsCompiledOnce() {
    String text = "x := y + 1;";
    assertSame(
        Compiled.of(read(text, cells()).statements()).firstPart(),
        Compiled.of(read(text, cells()).statements()).firstPart());
  }
}
