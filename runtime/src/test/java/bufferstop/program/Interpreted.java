package bufferstop.program;

/** Runs a program as it stands, without compiling it: the oracle of what is compiled. */
public final class Interpreted {
  private Interpreted() {}

  /** Makes a program ready to be run so. */
  public static void prepare(ControllerProgram program) {
    program.prepare(statement -> statement::run);
  }
}
