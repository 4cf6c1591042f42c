package bufferstop.st;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/** One class while it is written: a method for the whole and those that it calls. */
final class ClassOutput {
  private static final int STATIC = Opcodes.ACC_STATIC | Opcodes.ACC_PRIVATE;

  private final String name = Type.getInternalName(Compiled.class) + "Code";
  private final ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_FRAMES);
  private final Deque<Runnable> waiting = new ArrayDeque<>(); // methods called but not written yet
  private final List<Body> bodies = new ArrayList<>();
  private int methods;

  /** The class file of a statement: it implements {@link Compiled.Part}. */
  static byte[] of(Statement statement) {
    ClassOutput output = new ClassOutput();
    output.frame(statement);
    while (!output.waiting.isEmpty()) {
      output.waiting.remove().run();
    }
    output.writer.visitEnd();
    return output.writer.toByteArray();
  }

  private void frame(Statement statement) {
    String part = Type.getInternalName(Compiled.Part.class);
    int access = Opcodes.ACC_FINAL | Opcodes.ACC_SUPER;
    writer.visit(Opcodes.V17, access, name, null, "java/lang/Object", new String[] {part});
    MethodVisitor constructor = writer.visitMethod(0, "<init>", "()V", null, null);
    constructor.visitCode();
    constructor.visitVarInsn(Opcodes.ALOAD, 0);
    constructor.visitMethodInsn(Opcodes.INVOKESPECIAL, "java/lang/Object", "<init>", "()V", false);
    constructor.visitInsn(Opcodes.RETURN);
    end(constructor);
    MethodVisitor run = writer.visitMethod(Opcodes.ACC_PUBLIC, "run", "([J)V", null, null);
    run.visitCode();
    run.visitVarInsn(Opcodes.ALOAD, 1);
    run.visitInsn(Opcodes.ICONST_0);
    run.visitMethodInsn(Opcodes.INVOKESTATIC, name, apart(statement), "([JI)I", false);
    run.visitInsn(Opcodes.POP);
    run.visitInsn(Opcodes.RETURN);
    end(run);
  }

  private static void end(MethodVisitor method) {
    method.visitMaxs(0, 0); // computed
    method.visitEnd();
  }

  String name() {
    return name;
  }

  private String nextName() {
    return "m" + methods++;
  }

  /** The method of its own that an expression or statement gets. */
  String apart(Node node) {
    String method = nextName();
    waiting.add(() -> write(method, node));
    return method;
  }

  /** The method of a body, one for all its instances. */
  String body(Body body) {
    int known = bodies.indexOf(body);
    if (known < 0) {
      known = bodies.size();
      bodies.add(body);
      body.statements().fit();
      waiting.add(() -> write("body" + bodies.indexOf(body), body.statements()));
    }
    return "body" + known;
  }

  private void write(String methodName, Node node) {
    boolean isValue = node instanceof Expression;
    MethodVisitor method =
        writer.visitMethod(STATIC, methodName, isValue ? "([JI)J" : "([JI)I", null, null);
    method.visitCode();
    Code code = new Code(this, method);
    node.emit(code);
    if (isValue) {
      code.op(Opcodes.LRETURN);
    } else {
      code.leave(Statement.ON);
    }
    end(method);
  }

  /** The method that finds the branch of a CASE: from its selector, -1 for the ELSE. */
  String branches(Case cases) {
    String methodName = nextName();
    waiting.add(
        () -> {
          MethodVisitor method = writer.visitMethod(STATIC, methodName, "(J)I", null, null);
          method.visitCode();
          search(method, cases, 0, cases.labels().size() - 1);
          end(method);
        });
    return methodName;
  }

  /** Labels stand in rising order: each comparison halves those that are left. */
  private void search(MethodVisitor method, Case cases, int from, int to) {
    if (from > to) {
      method.visitInsn(Opcodes.ICONST_M1);
      method.visitInsn(Opcodes.IRETURN);
      return;
    }
    int middle = (from + to) >>> 1;
    Case.Label label = cases.labels().get(middle);
    Label notLess = new Label();
    Label found = new Label();
    compare(method, cases, label.least(), Opcodes.IFGE, notLess);
    search(method, cases, from, middle - 1);
    method.visitLabel(notLess);
    compare(method, cases, label.greatest(), Opcodes.IFLE, found);
    search(method, cases, middle + 1, to);
    method.visitLabel(found);
    method.visitIntInsn(Opcodes.SIPUSH, label.branch());
    method.visitInsn(Opcodes.IRETURN);
  }

  private static void compare(MethodVisitor method, Case cases, long with, int jump, Label target) {
    method.visitVarInsn(Opcodes.LLOAD, 0);
    method.visitLdcInsn(with);
    if (cases.isUnsigned()) {
      method.visitMethodInsn(
          Opcodes.INVOKESTATIC, "java/lang/Long", "compareUnsigned", "(JJ)I", false);
    } else {
      method.visitInsn(Opcodes.LCMP);
    }
    method.visitJumpInsn(jump, target);
  }
}
