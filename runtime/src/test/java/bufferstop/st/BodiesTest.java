package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/** What instances and calls share in a class file. */
class BodiesTest {
  private static final int MANY = 1_000;

  private final Cells cells = new Cells().with(Type.INT, "x", "y");

  private static Symbol cell(int index, String name, Kind kind) {
    return new Symbol(index, name, Type.INT, kind, "", "", null);
  }

  private static List<String> bodiesIn(Statement statement) {
    statement.fit();
    List<String> names = new ArrayList<>();
    new ClassReader(ClassOutput.of(statement))
        .accept(
            new ClassVisitor(Opcodes.ASM9) {
              @Override
              public MethodVisitor visitMethod(
                  int access, String name, String form, String signature, String[] thrown) {
                if (name.startsWith("body")) {
                  names.add(name + form);
                }
                return null;
              }
            },
            0);
    return names;
  }

  @Test
  void aThousandInstancesOfABlockAreOneMethod() {
    Body body = Body.ofStatements();
    Symbol in = cell(0, "in", Kind.LOCAL);
    Symbol out = cell(1, "out", Kind.LOCAL);
    body.fill(Terms.set(out, Terms.read(in)));
    BlockType.Pin pin = BlockType.Pin.required("in", Type.INT, "");
    BlockType type =
        new BlockType(
            "follow",
            List.of(pin),
            List.of(BlockType.Pin.plain("out", Type.INT, "")),
            List.of(),
            body,
            "");
    List<Statement> calls = new ArrayList<>();
    for (int i = 0; i < MANY; i++) {
      Symbol first = cell(100 + 2 * i, "b" + i, Kind.INTERNAL);
      Symbol input = cell(100 + 2 * i, "b" + i + ".in", Kind.INTERNAL);
      calls.add(Terms.call(type, first, List.of(new Terms.Input(input, pin, cells.read("x + 1")))));
    }
    Statement all = Statement.sequence(calls);
    assertEquals(List.of("body0([JI)I"), bodiesIn(all));
    long[] state = new long[100 + 2 * MANY];
    state[cells.find("x").index()] = 4;
    Compiled.of(all).run(state);
    for (int i = 0; i < MANY; i++) {
      assertEquals(5, state[101 + 2 * i], "output of instance " + i);
    }
  }

  @Test
  void aThousandCallsOfAFunctionAreOneMethod() {
    Body body = Body.ofStatements();
    Symbol in = cell(50, "a", Kind.INTERNAL);
    Symbol result = cell(51, "f", Kind.INTERNAL);
    body.fill(Terms.set(result, Terms.read(in)));
    BlockType.Pin pin = BlockType.Pin.required("a", Type.INT, "");
    UserFunction same = new UserFunction("f", List.of(pin), List.of(in), result, body);
    List<Statement> all = new ArrayList<>();
    for (int i = 0; i < MANY; i++) {
      FunctionCall inner =
          new FunctionCall(same, List.of(cells.read("x")), null, SourceText.of("f(x)"));
      FunctionCall outer = new FunctionCall(same, List.of(inner), null, SourceText.of("f(f(x))"));
      all.add(new Statement.Assignment(cells.find("y"), outer));
    }
    assertEquals(List.of("body0([JI)I"), bodiesIn(Statement.sequence(all)));
    cells.set("x", 7).run(Statement.sequence(all));
    assertEquals(7, cells.get("y"));
  }
}
