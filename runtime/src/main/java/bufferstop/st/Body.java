package bufferstop.st;

/**
 * What a block does when it is called: statements over the cells of its instance, or a method
 * {@code public static void step(long[] cells, int at)} of Java.
 */
public final class Body {
  /** Runs once over the cells of an instance. */
  @FunctionalInterface
  public interface Step {
    /**
     * One call.
     *
     * @param at first cell of the instance
     */
    void run(long[] cells, int at);
  }

  private final Class<?> nativeOwner;
  private final Step step;
  private Statement statements;

  private Body(Class<?> nativeOwner, Step step) {
    this.nativeOwner = nativeOwner;
    this.step = step;
  }

  /**
   * A body in Java.
   *
   * @param owner a public class with {@code public static void step(long[] cells, int at)}
   * @param step that same method
   */
  public static Body ofJava(Class<?> owner, Step step) {
    return new Body(owner, step);
  }

  /** A body of statements, which {@link #fill} gives once they are read. */
  public static Body ofStatements() {
    return new Body(null, null);
  }

  /** Gives the statements. */
  public void fill(Statement read) {
    statements = read;
  }

  Class<?> nativeOwner() {
    return nativeOwner;
  }

  Statement statements() {
    return statements;
  }

  void run(long[] cells, int at) {
    if (step != null) {
      step.run(cells, at);
    } else {
      statements.run(cells, at);
    }
  }
}
