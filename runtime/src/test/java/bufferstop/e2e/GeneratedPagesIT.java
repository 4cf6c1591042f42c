package bufferstop.e2e;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The I/O list and the picture of the brickworks in the tree are those the project gives; otherwise
 * {@code scripts/brickworks-docs} makes them anew, and the difference is for a person to read.
 */
class GeneratedPagesIT {
  private static final Path GENERATED = Launched.TOP.resolve("configs/brickworks/generated");

  @TempDir Path folder;

  @Test
  void theIoListAndThePictureAreUpToDate() throws IOException {
    try (Launched points =
        Launched.bufferstop(
            "points",
            "configs/brickworks",
            "--kind",
            "input",
            "--kind",
            "output",
            "--format",
            "markdown",
            "--pictures",
            folder.toString())) {
      assertEquals(0, points.status(), points.output());
      String golden = Files.readString(GENERATED.resolve("io-list.md"));
      assertEquals(golden.stripTrailing(), points.output().stripTrailing());
    }
    assertEquals(
        Files.readString(GENERATED.resolve("line.svg")),
        Files.readString(folder.resolve("line.svg")));
  }
}
