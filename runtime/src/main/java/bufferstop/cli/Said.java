package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.report.DiagnosticText;
import java.io.IOException;
import java.io.PrintWriter;
import java.net.BindException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;

/** Failures in plain words; a stack trace helps nobody at the bench. */
final class Said {
  private Said() {}

  /** Prints every problem. */
  static void problems(Diagnostics problems, PrintWriter to) {
    to.print(new DiagnosticText().render(problems.sorted()));
    to.flush();
  }

  static String plainly(Throwable e) {
    if (e instanceof BindException) {
      return "the address cannot be had: " + e.getMessage();
    }
    if (e instanceof AccessDeniedException denied) {
      return "no permission to write " + denied.getFile();
    }
    if (e instanceof FileSystemException file) {
      String reason = file.getReason() == null ? "it cannot be used" : file.getReason();
      return file.getFile() + ": " + reason;
    }
    if (e instanceof IOException || e instanceof IllegalArgumentException) {
      return e.getMessage();
    }
    return e.getMessage() == null
        ? "stopped by an internal fault, " + e.getClass().getSimpleName()
        : e.getMessage();
  }
}
