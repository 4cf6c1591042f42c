package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import java.math.BigInteger;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Invariants over random expressions. A failure prints its seed; give it back with -Dst.seed. */
class ExpressionProperties {
  private static final long SEED = Long.getLong("st.seed", System.nanoTime());
  private static final Type[] INTEGERS = {
    Type.SINT, Type.INT, Type.DINT, Type.LINT, Type.USINT, Type.UINT, Type.UDINT, Type.ULINT
  };
  private static final String[] SOUP = {
    "b",
    "b(",
    "=>",
    "RETURN",
    "CONTINUE",
    "i",
    "r",
    "t",
    "nix",
    "a.b",
    "(",
    ")",
    "(",
    ")",
    ",",
    ";",
    ":=",
    "+",
    "-",
    "*",
    "**",
    "/",
    "<",
    ">",
    "<=",
    "=",
    "<>",
    "&",
    "AND",
    "OR",
    "XOR",
    "NOT",
    "MOD",
    "TRUE",
    "1",
    "0",
    "2.5",
    "16#F",
    "-16#F",
    "1__0",
    "1.",
    ".5",
    "T#1s",
    "T#",
    "INT#5",
    "INT#99999",
    "SQRT(",
    "MAX(",
    "MUX(",
    "LIMIT(",
    "REAL_TO_INT(",
    "INT_TO_BOOL(",
    "ADD(",
    "IF",
    "THEN",
    "ELSE",
    "ELSIF",
    "END_IF",
    ";",
    "CASE",
    "?",
    "(*",
    "*)",
    "//",
    "\n",
    "==",
    ".",
    "#",
    "x_",
    "\u00e4",
    "'",
    "FOR",
    "TO",
    "BY",
    "DO",
    "END_FOR",
    "EXIT",
    "OF",
    "END_CASE",
    ":",
    "..",
    "[",
    "]",
    "'a$'b'",
    "$",
    "w",
    "WORD#16#F",
    "hue#red",
    "SHL(",
    "CONCAT(",
    "LEN(",
    "INT_TO_STRING(",
    "CASE i OF",
    "FOR i := 1 TO 3 DO",
    "EXPT(",
    "SEL("
  };

  @Test
  void integersAgreeWithExactArithmetic() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < 4000; round++) {
      Type type = INTEGERS[random.nextInt(INTEGERS.length)];
      Cells cells = new Cells().with(type, "a", "b", "c");
      for (String name : new String[] {"a", "b", "c"}) {
        cells.set(name, cell(random, type));
      }
      IntegerTree tree = IntegerTree.random(random, type, cells, 5);
      String text = tree.text(Operator.LOOSEST);
      BigInteger exact = tree.value();
      Expression read = ExpressionReader.read(SourceText.of(text), cells, cells.problems);
      String about = about(text + " in " + type);
      assertEquals(exact == null ? "error" : exact.toString(), outcome(read, cells), about);
    }
  }

  private static String outcome(Expression read, Cells cells) {
    if (read == null) {
      return cells.problems.sorted().toString();
    }
    long bits = cells.bits(read);
    return cells.errors() == 0 ? Cells.print(read.type(), bits) : "error";
  }

  private static long cell(SplittableRandom random, Type type) {
    long any = random.nextLong() >> random.nextInt(64);
    boolean small = random.nextBoolean();
    if (type == Type.ULINT) {
      return small ? random.nextLong(100) : any;
    }
    long spread = small ? any % 100 : any;
    return Math.max(type.least(), Math.min(type.greatest(), spread));
  }

  @Test
  void realsAgreeWithDoubles() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < 4000; round++) {
      Cells cells = new Cells().with(Type.LREAL, "a", "b", "c");
      for (String name : new String[] {"a", "b", "c"}) {
        cells.set(name, (random.nextInt(41) - 20) / 4.0);
      }
      RealTree tree = RealTree.random(random, cells, 5);
      String text = tree.text(Operator.LOOSEST);
      Expression read = ExpressionReader.read(SourceText.of(text), cells, cells.problems);
      Double exact = tree.value();
      String expected = exact == null ? "error" : Double.toString(exact);
      assertEquals(expected, outcome(read, cells), about(text));
    }
  }

  @Test
  void boolsAgreeWithJava() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < 4000; round++) {
      Cells cells = new Cells().with(Type.BOOL, "a", "b", "c");
      for (String name : new String[] {"a", "b", "c"}) {
        cells.set(name, random.nextInt(2));
      }
      BoolTree tree = BoolTree.random(random, cells, 6);
      String text = tree.text(Operator.LOOSEST);
      assertEquals(tree.value() ? "TRUE" : "FALSE", cells.value(text), about(text));
    }
  }

  @Test
  void statementsAgreeWithJava() {
    SplittableRandom random = new SplittableRandom(SEED);
    String[] names = {"x", "y", "z", "p", "q", "s"};
    for (int round = 0; round < 3000; round++) {
      Cells cells = new Cells().with(Type.INT, "x", "y", "z").with(Type.SINT, "p", "q", "s");
      long[] values = new long[names.length + 1];
      for (int i = 0; i < 3; i++) {
        values[i] = random.nextInt(-40, 40);
        cells.set(names[i], values[i]);
      }
      RandomStatements statements = new RandomStatements(random);
      RandomStatements.Step step = statements.list(4);
      SourceText text = SourceText.of(statements.text());
      Program program = StatementReader.read(text, cells, symbol -> null, cells.problems);
      assertEquals(List.of(), cells.problems.sorted(), about(text.value()));
      cells.run(program.statements());
      step.exits(values);
      for (int i = 0; i < names.length; i++) {
        assertEquals(values[i], cells.get(names[i]), about(names[i] + " in\n" + text.value()));
      }
      long errors = cells.errors();
      assertEquals(values[RandomStatements.ERRORS], errors, about(text.value()));
    }
  }

  @Test
  void anyTextGivesAResultOrADiagnostic() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int round = 0; round < 10_000; round++) {
      String text = soup(random);
      try {
        checkAnyText(text);
      } catch (RuntimeException | StackOverflowError e) {
        fail(about(text), e);
      }
    }
  }

  private static void checkAnyText(String text) {
    Cells cells = Cells.ofEveryType();
    SourceText source = SourceText.of(text);
    Expression read = ExpressionReader.read(source, cells, Type.BOOL, cells.problems);
    assertEquals(read == null, cells.problems.hasErrors(), about(text));
    Diagnostics problems = new Diagnostics();
    Long literal = ExpressionReader.literal(source, Type.INT, problems);
    assertEquals(literal == null, problems.hasErrors(), about(text));
    Diagnostics statements = new Diagnostics();
    Program program = StatementReader.read(source, cells, symbol -> null, statements);
    cells.run(program.statements());
    boolean didNothing = program.writes().isEmpty() && program.reads().isEmpty();
    assertTrue(statements.hasErrors() || !didNothing || isIdle(text), about(text));
  }

  /** Whether statements may well do nothing: only empty ones, comments and constant conditions. */
  private static boolean isIdle(String text) {
    String code = text.replaceAll("\\(\\*(.|\n)*?\\*\\)|//[^\n]*", " ");
    return code.isBlank() || code.contains(";");
  }

  private static String soup(SplittableRandom random) {
    StringBuilder text = new StringBuilder();
    for (int count = random.nextInt(1, 20); count > 0; count--) {
      text.append(SOUP[random.nextInt(SOUP.length)]).append(random.nextInt(4) == 0 ? "" : " ");
    }
    return text.toString();
  }

  private static String about(String text) {
    return "seed " + SEED + ": " + text;
  }
}
