package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Position;
import bufferstop.model.Project.Source;
import bufferstop.model.Recording;
import bufferstop.model.Recording.Event;
import bufferstop.model.Recording.Mark;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Tree;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads a recording. One that was cut off is read up to its last mark: what was done after it may
 * not all have been written.
 */
public final class RecordingLoader {
  private final String file;
  private final Diagnostics problems;
  private final DeedLoader deeds;
  private final List<String> retained = new ArrayList<>();
  private final List<Source> sources = new ArrayList<>();
  private final List<Event> events = new ArrayList<>();
  private final List<Mark> marks = new ArrayList<>();
  private long lastPeriod = -1;
  private String sha256 = "";

  private RecordingLoader(String file, Diagnostics problems) {
    this.file = file;
    this.problems = problems;
    deeds = new DeedLoader(problems);
  }

  /** Reads one; null after a diagnostic. */
  public static Recording read(Path path, Diagnostics problems) {
    String shown = path.toString().replace('\\', '/');
    try (BufferedReader in = Files.newBufferedReader(path, StandardCharsets.UTF_8)) {
      return new RecordingLoader(shown, problems).recording(in);
    } catch (IOException e) {
      String found = Files.exists(path) ? "cannot be read as text" : "does not exist";
      problems.add(
          Diagnostic.error(Code.BAD_RECORDING, Position.ofFile(shown), "`" + shown + "` " + found)
              .expected("a recording that `run --record` wrote"));
      return null;
    }
  }

  private Recording recording(BufferedReader in) throws IOException {
    int number = 0;
    TableReader head = null;
    // a line is whole when another follows it or it was ended; the writer ends every line
    for (String line = wholeLine(in); line != null; line = wholeLine(in)) {
      number++;
      TableReader reader = table(line, number);
      if (reader == null) {
        return null;
      }
      if (number == 1) {
        head = reader;
      } else {
        read(reader);
      }
    }
    if (head == null || !head.has("recording")) {
      problems.add(
          Diagnostic.error(Code.BAD_RECORDING, Position.ofFile(file), "this is no recording")
              .expected("a file that `run --record` wrote"));
      return null;
    }
    head.tree("recording");
    events.removeIf(e -> e.period() > lastPeriod);
    return new Recording(
        head.words("project"),
        head.words("sha256"),
        head.words("version"),
        head.whole("seed", 1, Long.MIN_VALUE, Long.MAX_VALUE),
        head.words("io").equals("plant"),
        List.copyOf(sources),
        List.copyOf(retained),
        List.copyOf(events),
        List.copyOf(marks),
        lastPeriod,
        sha256);
  }

  /** The next line that has an end; null at the end of the file, or where it was cut off. */
  private static String wholeLine(BufferedReader in) throws IOException {
    StringBuilder line = new StringBuilder();
    for (int c = in.read(); c >= 0; c = in.read()) {
      if (c == '\n') {
        return line.toString();
      }
      line.append((char) c);
    }
    return null;
  }

  private TableReader table(String line, int number) {
    Diagnostics found = new Diagnostics();
    Tree tree = YamlSource.read(file, line + "\n", found);
    TableReader reader = tree == null ? null : TableReader.open(tree, "a line", found);
    if (reader == null) {
      problems.add(
          Diagnostic.error(
              Code.BAD_RECORDING,
              new Position(file, number, 1, 1),
              "this line of the recording is damaged"));
    }
    return reader;
  }

  private void read(TableReader reader) {
    if (reader.has("source")) {
      sources.add(new Source(reader.words("source"), reader.words("text")));
    } else if (reader.has("retained")) {
      retained.add(reader.words("retained"));
    } else if (reader.has("mark")) {
      long period = reader.whole("mark", 0, 0, Long.MAX_VALUE);
      marks.add(new Mark(period, reader.whole("crc", 0, 0, Long.MAX_VALUE)));
      lastPeriod = Math.max(lastPeriod, period); // a mark may stand behind the end
    } else if (reader.has("end")) {
      lastPeriod = Math.max(lastPeriod, reader.whole("end", 0, -1, Long.MAX_VALUE));
      sha256 = reader.words("sha256");
    } else if (reader.has("before")) {
      long period = reader.whole("before", 0, 0, Long.MAX_VALUE);
      List<String> given = reader.given(DeedLoader.DEEDS);
      Deed deed = given.size() == 1 ? deeds.deed(given.get(0), reader) : null;
      if (deed != null) {
        events.add(new Event(period, deed));
      }
    }
  }
}
