package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.ScanTable;
import bufferstop.engine.SmallController;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The library and the project in the manual's section on users' own functions and blocks. */
class ManualExamplesTest {
  private static final Path MANUAL = Path.of("../configs/README.md");
  private static final String SECTION = "\n## Functions and function blocks of your own\n";
  private static final Pattern EXAMPLE = Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL);

  private static List<String> examples() throws IOException {
    String text = Files.readString(MANUAL);
    int start = text.indexOf(SECTION) + SECTION.length();
    Matcher matcher = EXAMPLE.matcher(text.substring(start, text.indexOf("\n## ", start)));
    List<String> examples = new ArrayList<>();
    while (matcher.find()) {
      examples.add(matcher.group(1));
    }
    return examples;
  }

  @Test
  void runAsTheManualSays() throws IOException {
    List<String> examples = examples();
    assertEquals(2, examples.size());
    SmallController pit =
        SmallController.ofFiles(
            List.of("pumps.yaml", "project.yaml"), List.of(examples.get(0), examples.get(1)));
    ScanTable.play(
        pit,
        """
        t          0 1000 3000 5000 6000 9000 13000 14000
        level_high 0 1    1    1    1    1    1     0
        pump_1     0 1    1    0    0    0    1     0
        pump_2     0 0    0    1    1    1    0     0
        """);
    assertEquals(Double.doubleToLongBits(3.0), pit.get("speed"));
  }
}
