package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/** Times on the command line: {@code T#1m30s}, or {@code 1m30s} for short. */
final class CommandTime {
  private CommandTime() {}

  /**
   * In microseconds.
   *
   * @param otherwise where nothing is given
   * @throws ParameterException when it is none
   */
  static long micros(String given, long otherwise, CommandSpec spec) {
    if (given == null) {
      return otherwise;
    }
    String literal = given.contains("#") ? given : "T#" + given;
    Long micros =
        ExpressionReader.literal(
            SourceText.onLine(literal, "time", 1, 1), Type.TIME, new Diagnostics());
    if (micros == null) {
      throw new ParameterException(
          spec.commandLine(), "`" + given + "` is no time; expected T#1m30s, or 90s for short");
    }
    return micros;
  }
}
