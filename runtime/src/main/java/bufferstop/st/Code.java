package bufferstop.st;

import bufferstop.model.Symbol;
import bufferstop.model.SystemCells;
import bufferstop.model.Type;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/**
 * The bytecode of one method while it is written. Local 0 holds the cells, local 1 the first cell
 * of the instance whose body runs. An expression's method returns its value, a statement's how it
 * ended.
 */
final class Code {
  private static final int FIRST_FREE = 2;

  private final ClassOutput output;
  private final MethodVisitor method;
  private int nextLocal = FIRST_FREE;
  private Label loopEnd; // of the innermost loop in this method, or null
  private Label loopNext; // where that loop's next pass is prepared

  Code(ClassOutput output, MethodVisitor method) {
    this.output = output;
    this.method = method;
  }

  /** Puts out an expression or statement, or a call to the method that holds it. */
  void put(Node node) {
    if (!node.isApart()) {
      node.emit(this);
      return;
    }
    String name = output.apart(node);
    method.visitVarInsn(Opcodes.ALOAD, 0);
    method.visitVarInsn(Opcodes.ILOAD, 1);
    boolean isValue = node instanceof Expression;
    method.visitMethodInsn(
        Opcodes.INVOKESTATIC, output.name(), name, isValue ? "([JI)J" : "([JI)I", false);
    if (!isValue) {
      passOn((Statement) node);
    }
  }

  /** After a statement in a method of its own: what it left, this leaves. */
  private void passOn(Statement statement) {
    int end = local(1);
    method.visitVarInsn(Opcodes.ISTORE, end);
    for (int how : new int[] {Statement.EXIT, Statement.RETURN, Statement.CONTINUE}) {
      if (statement.mayEnd(how)) {
        Label another = new Label();
        method.visitVarInsn(Opcodes.ILOAD, end);
        push(how);
        method.visitJumpInsn(Opcodes.IF_ICMPNE, another);
        end(how);
        label(another);
      }
    }
  }

  /** Puts out a numeric expression as a double. */
  void putReal(Expression number) {
    put(number);
    switch (number.type()) {
      case REAL, LREAL -> asDouble();
      case ULINT -> call(Numbers.class, "ofUnsigned", "(J)D");
      default -> op(Opcodes.L2D);
    }
  }

  void asDouble() {
    call(Double.class, "longBitsToDouble", "(J)D");
  }

  void asBits() {
    call(Double.class, "doubleToRawLongBits", "(D)J");
  }

  /** Goes to the label when the BOOL on the stack is FALSE. */
  void jumpIfFalse(Label label) {
    push(0L);
    op(Opcodes.LCMP);
    jump(Opcodes.IFEQ, label);
  }

  /** The value of a symbol's cell. */
  void load(Symbol symbol) {
    address(symbol);
    op(Opcodes.LALOAD);
  }

  /** The array and the index of a symbol's cell, for what reads or writes it next. */
  void address(Symbol symbol) {
    cells();
    cell(symbol);
  }

  /** The index of a symbol's cell. */
  void cell(Symbol symbol) {
    push(symbol.index());
    if (symbol.kind() == Symbol.Kind.LOCAL) {
      instance();
      op(Opcodes.IADD);
    }
  }

  void store() {
    op(Opcodes.LASTORE);
  }

  void cells() {
    method.visitVarInsn(Opcodes.ALOAD, 0);
  }

  /** First cell of the instance whose body runs. */
  void instance() {
    method.visitVarInsn(Opcodes.ILOAD, 1);
  }

  /** Starts to watch for errors; what it returns goes to {@link #jumpIfFailed}. */
  int watch() {
    int watched = local(2);
    errors();
    storeLocal(watched);
    return watched;
  }

  /** Goes to the label when an error was counted since the watch began. */
  void jumpIfFailed(int watched, Label label) {
    errors();
    loadLocal(watched);
    op(Opcodes.LCMP);
    jump(Opcodes.IFNE, label);
  }

  /** Leaves a value in a local; goes to the label when an error was counted on the way. */
  int putWatched(Expression value, Label failed) {
    int watched = watch();
    int bits = local(2);
    put(value);
    storeLocal(bits);
    jumpIfFailed(watched, failed);
    return bits;
  }

  private void errors() {
    cells();
    push(SystemCells.ERRORS);
    op(Opcodes.LALOAD);
  }

  /** A BOOL from the order of two values, an int as {@link Long#compare} gives it. */
  void truthOf(Operator comparison) {
    Label isFalse = new Label();
    Label end = new Label();
    int unless =
        switch (comparison) {
          case LESS -> Opcodes.IFGE;
          case GREATER -> Opcodes.IFLE;
          case AT_MOST -> Opcodes.IFGT;
          case AT_LEAST -> Opcodes.IFLT;
          case EQUAL -> Opcodes.IFNE;
          default -> Opcodes.IFEQ;
        };
    jump(unless, isFalse);
    push(1L);
    jump(Opcodes.GOTO, end);
    label(isFalse);
    push(0L);
    label(end);
  }

  /** The cells and a place, which all that may count an error take last. */
  void place(int place) {
    cells();
    push(place);
  }

  void push(long value) {
    if (value == 0 || value == 1) {
      op(value == 0 ? Opcodes.LCONST_0 : Opcodes.LCONST_1);
    } else {
      method.visitLdcInsn(value);
    }
  }

  void push(int value) {
    if (value >= -1 && value <= 5) {
      op(Opcodes.ICONST_0 + value);
    } else if (value >= Byte.MIN_VALUE && value <= Byte.MAX_VALUE) {
      method.visitIntInsn(Opcodes.BIPUSH, value);
    } else if (value >= Short.MIN_VALUE && value <= Short.MAX_VALUE) {
      method.visitIntInsn(Opcodes.SIPUSH, value);
    } else {
      method.visitLdcInsn(value);
    }
  }

  void push(String text) {
    method.visitLdcInsn(text);
  }

  void push(Type type) {
    String owner = org.objectweb.asm.Type.getInternalName(Type.class);
    method.visitFieldInsn(Opcodes.GETSTATIC, owner, type.name(), "L" + owner + ";");
  }

  /** A local of one slot, or of two for a long. */
  int local(int slots) {
    int local = nextLocal;
    nextLocal += slots;
    return local;
  }

  void storeLocal(int local) {
    method.visitVarInsn(Opcodes.LSTORE, local);
  }

  void loadLocal(int local) {
    method.visitVarInsn(Opcodes.LLOAD, local);
  }

  void op(int opcode) {
    method.visitInsn(opcode);
  }

  void jump(int opcode, Label label) {
    method.visitJumpInsn(opcode, label);
  }

  void label(Label label) {
    method.visitLabel(label);
  }

  /** Calls a static method. */
  void call(Class<?> owner, String name, String descriptor) {
    method.visitMethodInsn(
        Opcodes.INVOKESTATIC,
        org.objectweb.asm.Type.getInternalName(owner),
        name,
        descriptor,
        false);
  }

  /** Runs a body; the cells and the first cell of its instance are on the stack. */
  void call(Body body) {
    if (body.nativeOwner() != null) {
      call(body.nativeOwner(), "step", "([JI)V");
    } else {
      method.visitMethodInsn(
          Opcodes.INVOKESTATIC, output.name(), output.body(body), "([JI)I", false);
      op(Opcodes.POP);
    }
  }

  /** Chooses a label by the number on the stack, from 0. */
  void choose(Label[] labels, Label otherwise) {
    if (labels.length == 0) {
      op(Opcodes.POP);
      jump(Opcodes.GOTO, otherwise);
    } else {
      method.visitTableSwitchInsn(0, labels.length - 1, otherwise, labels);
    }
  }

  /** The number of the branch that holds the value on the stack; see {@link Case}. */
  void branchOf(Case cases) {
    method.visitMethodInsn(
        Opcodes.INVOKESTATIC, output.name(), output.branches(cases), "(J)I", false);
  }

  /** Puts out the body of a loop; an EXIT in it goes to one label, a CONTINUE to the other. */
  void loop(Label end, Label next, Node body) {
    Label outerEnd = loopEnd;
    Label outerNext = loopNext;
    loopEnd = end;
    loopNext = next;
    put(body);
    loopEnd = outerEnd;
    loopNext = outerNext;
  }

  /** Ends a statement so, here or in the method that called this. */
  void end(int how) {
    if (loopEnd == null || how == Statement.RETURN) {
      leave(how);
    } else {
      jump(Opcodes.GOTO, how == Statement.EXIT ? loopEnd : loopNext);
    }
  }

  /** Ends this method with how its statement ended. */
  void leave(int how) {
    push(how);
    op(Opcodes.IRETURN);
  }
}
