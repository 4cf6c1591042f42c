package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import bufferstop.st.ExpressionReader;

/** Times on the command line: {@code T#1m30s}, or {@code 1m30s} for short. */
final class CommandTime {
  private CommandTime() {}

  /** In microseconds; null when it is none. */
  static Long micros(String given) {
    String literal = given.contains("#") ? given : "T#" + given;
    return ExpressionReader.literal(
        SourceText.onLine(literal, "time", 1, 1), Type.TIME, new Diagnostics());
  }
}
