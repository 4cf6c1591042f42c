package bufferstop.rig;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Project;
import bufferstop.model.Project.Source;
import bufferstop.model.Recording;
import java.nio.file.Path;
import java.util.List;

/** Whether a project is the one that was recorded, and if not, where it differs first. */
public final class RecordedProject {
  private RecordedProject() {}

  /** Reports the first difference. */
  public static void compare(Recording recording, Project project, Diagnostics problems) {
    if (recording.projectSha256().equals(project.sha256())) {
      return;
    }
    List<Source> then = recording.sources();
    List<Source> now = project.sources();
    for (int i = 0; i < Math.min(then.size(), now.size()); i++) {
      String thenFile = relative(then.get(0), then.get(i));
      String nowFile = relative(now.get(0), now.get(i));
      if (!thenFile.equals(nowFile)) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_RECORDING,
                    Position.ofFile(now.get(i).file()),
                    "`" + nowFile + "` was not read here when the run was recorded")
                .expected("`" + thenFile + "`"));
        return;
      }
      if (!then.get(i).text().equals(now.get(i).text())) {
        problems.add(difference(then.get(i), now.get(i)));
        return;
      }
    }
    String which =
        then.size() > now.size()
            ? "`" + relative(then.get(0), then.get(now.size())) + "` is no longer part of it"
            : "`" + relative(now.get(0), now.get(then.size())) + "` is new";
    problems.add(
        Diagnostic.error(Code.BAD_RECORDING, Position.ofFile(now.get(0).file()), which)
            .expected("the project that was recorded"));
  }

  private static String relative(Source first, Source file) {
    Path folder = Path.of(first.file()).toAbsolutePath().normalize().getParent();
    Path path = Path.of(file.file()).toAbsolutePath().normalize();
    return folder.relativize(path).toString().replace('\\', '/');
  }

  private static Diagnostic difference(Source then, Source now) {
    String[] before = then.text().split("\n", -1);
    String[] after = now.text().split("\n", -1);
    int line = 0;
    while (line < Math.min(before.length, after.length) && before[line].equals(after[line])) {
      line++;
    }
    String found = line < after.length ? after[line].strip() : "";
    String expected = line < before.length ? before[line].strip() : "";
    int indent =
        line < after.length ? after[line].length() - after[line].stripLeading().length() : 0;
    Position at = new Position(now.file(), line + 1, indent + 1, Math.max(1, found.length()));
    return Diagnostic.error(Code.BAD_RECORDING, at, "this is not the project that was recorded")
        .expected(expected.isEmpty() ? "the end of the file" : expected)
        .help("take the recorded version; the recording holds it whole");
  }
}
