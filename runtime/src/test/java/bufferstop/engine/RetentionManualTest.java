package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The example in the manual's section on retained values does what the section says. */
class RetentionManualTest {
  private static final Pattern EXAMPLE =
      Pattern.compile("## Retained values and starts\n\n```yaml\n(.*?)```", Pattern.DOTALL);

  @Test
  void goesOnAfterAWarmRestartAndBeginsAnewAfterAColdOne() throws IOException {
    Matcher matcher = EXAMPLE.matcher(Files.readString(Path.of("../configs/README.md")));
    assertEquals(true, matcher.find());
    String project = "project: small\nscan: T#1ms\n" + matcher.group(1);
    SmallController on = SmallController.ofProject(project).scan();
    on.set("fill_time", 9000).set("tare", 5).force("over", 1).scan();
    for (int load = 0; load < 20; load++) {
      on.force("beam", 1).scan().force("beam", 0).scan();
    }
    on.restart(false, 10).scan();
    assertEquals(9000, on.get("fill_time"));
    assertEquals(5, on.get("tare"));
    assertEquals(20, on.get("loads.CV"));
    assertEquals(1, on.get("overrun.tripped"));
    assertEquals(1, on.get("alarms.full.active"));
    on.restart(true, 10).scan();
    assertEquals(8000, on.get("fill_time"));
    assertEquals(0, on.get("tare"));
    assertEquals(0, on.get("loads.CV"));
    assertEquals(0, on.get("overrun.tripped"));
    assertEquals(0, on.get("alarms.full.active"));
  }
}
