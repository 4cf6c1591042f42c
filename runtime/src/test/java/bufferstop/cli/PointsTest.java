package bufferstop.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The matrix of a project on the command line. */
class PointsTest {

  private static List<String> matrix(String format) {
    PrintStream before = System.out;
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
    try {
      int status = Main.run("points", "../configs/brickworks", "--matrix", "--format", format);
      assertEquals(Exit.OK, status);
      return bytes.toString(StandardCharsets.UTF_8).lines().toList();
    } finally {
      System.setOut(before);
    }
  }

  @Test
  void theMatrixIsPrintedInEachFormat() {
    List<String> csv = matrix("csv");
    String head = "interlock,kind,cause,text,vote,delay,bypass,reset,";
    assertTrue(csv.get(0).startsWith(head + "traction,"), csv.get(0));
    assertTrue(
        csv.stream().anyMatch(l -> l.startsWith("line_stop,trip,chain_open,")), csv::toString);
    assertEquals(csv.size() + 1, matrix("table").size(), "the legend besides");
    assertEquals(csv.size() + 3, matrix("markdown").size(), "ruler, empty line, legend besides");
  }
}
