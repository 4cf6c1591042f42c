package bufferstop.model;

import java.util.List;
import java.util.Locale;

/**
 * A function or a function block of the user's own, as a project or a library declares it.
 *
 * @param name as declared
 * @param inputs given by a call
 * @param outputs of a function block; none of a function
 * @param locals what else the body may name: the locals of a function, the state of a block
 * @param result type of a function's value; null for a function block
 * @param text one line for people, may be empty
 * @param body Structured Text
 * @param position of the name
 */
public record Routine(
    String name,
    List<Pin> inputs,
    List<Pin> outputs,
    List<Pin> locals,
    ValueType result,
    String text,
    SourceText body,
    Position position) {

  /** Below which routines that could not be read are doubted. */
  private static final String DOUBT = "#routines";

  /**
   * A value of a call, or, in the state of a block, an instance of another.
   *
   * @param type null for an instance
   * @param block what it is an instance of; null for a value
   * @param initial its cells at a cold start, from the first on; those that are missing are 0
   * @param required whether a call must give this input
   * @param text one line for people, may be empty
   */
  public record Pin(
      String name,
      ValueType type,
      Name block,
      List<Long> initial,
      boolean required,
      String text,
      Position position) {}

  /** Whether it is a function: it has a value and no memory. */
  public boolean isFunction() {
    return result != null;
  }

  /** How messages call it: {@code function `ramp`}. */
  public String words() {
    return (isFunction() ? "function `" : "function block `") + name + "`";
  }

  /** Notes that a function or block of that name has a wrong declaration, reported. */
  public static void doubt(String name, Diagnostics problems) {
    problems.doubt(DOUBT + "." + name.toLowerCase(Locale.ROOT));
  }

  /** Notes that a file or section with routines could not be read, and was reported. */
  public static void doubtAll(Diagnostics problems) {
    problems.doubt(DOUBT);
  }

  /** Whether a function or block that cannot be found is explained by an error reported already. */
  public static boolean isDoubted(String name, Diagnostics problems) {
    return problems.doubts(DOUBT + "." + name);
  }
}
