package bufferstop.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Enumerations, arrays, bit strings and STRING as scenarios write and judge them. */
class TypesInScenariosTest {
  private static final String PROJECT =
      """
      project: Wheel works
      controller:
        types:
          mode: [off, hand, automatic]
        constants:
          recipes: {type: INT, value: 3}
          top: {type: REAL, value: 4.5}
        operator:
          wanted: {type: mode}
          flags: {type: WORD, initial: 16#F0}
          amount:
            type: ARRAY[1..recipes] OF REAL
            initial: [1.0, 2.0, 3.0]
            range: [0.0, 10.0]
          customer: {type: "STRING[12]", initial: nobody}
        internal:
          now: {type: mode}
          label: {type: "STRING[30]"}
          total: {type: REAL}
          i: {type: INT}
        logic: |
          now := wanted;
          total := 0.0;
          FOR i := 1 TO recipes DO total := total + amount[i]; END_FOR;
          label := CONCAT('for ', customer);
      """;
  private static final String SCENARIO =
      """
      scenario: Values of every kind
      for: T#1s
      do:
        - at: T#100ms
          write: {wanted: automatic, "amount[2]": top, customer: Mill, flags: 16#0F}
        - at: T#200ms
          write: {"amount[3]": 40.0}
          refused: TRUE
      expect:
        - {eventually: now = automatic AND total = 8.5, within: T#200ms}
        - {eventually: "label = 'for Mill'", within: T#200ms}
        - {eventually: "flags = 16#000F AND customer < 'Millx'", within: T#200ms}
      """;

  @TempDir private Path folder;

  private String test(String more, int status) throws IOException {
    Files.writeString(folder.resolve("project.yaml"), PROJECT);
    Files.createDirectories(folder.resolve("scenarios"));
    Files.writeString(folder.resolve("scenarios/kinds.yaml"), SCENARIO + more);
    PrintStream before = System.out;
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream errorsBefore = System.err;
    PrintStream both = new PrintStream(bytes, true, StandardCharsets.UTF_8);
    System.setOut(both);
    System.setErr(both);
    try {
      assertEquals(status, Main.run("test", folder.toString()), bytes::toString);
      return bytes.toString(StandardCharsets.UTF_8);
    } finally {
      System.setOut(before);
      System.setErr(errorsBefore);
    }
  }

  @Test
  void areWrittenAndJudged() throws IOException {
    assertTrue(test("", Exit.OK).contains("1 passed"));
  }

  @Test
  void areShownByNameAndText() throws IOException {
    String out =
        test(
            "  - {always: \"label <> 'for Mill'\"}\n  - {never: now = automatic}\n",
            Exit.NOT_PROVEN);
    assertTrue(out.contains("label = 'for Mill' since T#100ms; before: 'for nobody'"), out);
    assertTrue(out.contains("now = automatic since T#100ms; before: off"), out);
  }

  @Test
  void cannotWorkOutTextsOutsideTheController() throws IOException {
    String out = test("  - {never: \"LEFT(label, 2) = 'x'\"}\n", Exit.NOT_LOADED);
    assertTrue(out.contains("`LEFT(label, 2)` is worked out in the controller only"), out);
  }
}
