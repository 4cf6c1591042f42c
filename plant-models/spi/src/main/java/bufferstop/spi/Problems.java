package bufferstop.spi;

/** Takes the problems a plug-in finds in its settings; the host prints them with their place. */
public interface Problems {

  /**
   * Reports a problem.
   *
   * @param at the mapping the parameter belongs to
   * @param parameter the parameter whose value is at fault; when the file does not give it, the
   *     place of the mapping itself is shown
   * @param message what is wrong: lower case, no full stop, the user's text in backquotes
   * @param expected what would be right, with unit and range; may be empty
   * @param help how to mend it; may be empty
   */
  void error(Settings at, String parameter, String message, String expected, String help);

  /**
   * Reports what can be run but is probably not meant; parameters as in {@link #error}. A host that
   * does not know it says nothing.
   */
  default void warning(
      Settings at, String parameter, String message, String expected, String help) {}
}
