package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A plug-in of under 60 lines in a Maven project of its own, outside the build, is compiled against
 * the jar of the interface, found with {@code --plants} and run.
 */
class OutsidePluginIT {
  private static final Path SOURCES = Launched.TOP.resolve("plant-models/outside");

  @TempDir Path folder;

  @Test
  void itIsUnderSixtyLines() throws IOException {
    List<String> lines = Files.readAllLines(SOURCES.resolve("src/main/java/tank/TankModel.java"));
    assertTrue(lines.size() < 60, lines.size() + " lines");
  }

  @Test
  void itIsBuiltByItsOwnProjectAndRunByTheProduct() throws Exception {
    copy(SOURCES, folder.resolve("plugin"));
    build();
    try (Launched test =
        Launched.bufferstop(
            "test",
            folder.resolve("plugin/project").toString(),
            "--plants",
            folder.resolve("plugin/target").toString())) {
      assertEquals(0, test.status(), test.output());
      assertTrue(test.output().contains("1 passed, 0 inconclusive, 0 failed"), test.output());
    }
  }

  private void build() throws IOException, InterruptedException {
    Path log = folder.resolve("build.log");
    Process maven =
        new ProcessBuilder(
                "mvn",
                "-B",
                "-q",
                "-o",
                "-f",
                folder.resolve("plugin/pom.xml").toString(),
                "-Dspi.jar=" + spi(),
                "package")
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    assertTrue(maven.waitFor(5, TimeUnit.MINUTES), "Maven did not end");
    assertEquals(0, maven.exitValue(), Files.readString(log, StandardCharsets.UTF_8));
  }

  /** The interface as it stands beside the product's own jar. */
  private static Path spi() throws IOException {
    try (Stream<Path> jars = Files.list(Launched.TOP.resolve("runtime/target/lib"))) {
      return jars.filter(j -> j.getFileName().toString().startsWith("bufferstop-spi"))
          .findFirst()
          .orElseThrow();
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    List<Path> all;
    try (Stream<Path> files = Files.walk(from)) {
      all = files.filter(Files::isRegularFile).toList();
    }
    for (Path file : all) {
      Path target = to.resolve(from.relativize(file).toString());
      Files.createDirectories(target.getParent());
      Files.copy(file, target);
    }
  }
}
