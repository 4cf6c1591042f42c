package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Position;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DiagnosticTextTest {
  @TempDir Path folder;
  private String file;

  @BeforeEach
  void aFile() throws IOException {
    file = write("first: 1\n\tsecond: [a, b]\r\n\uD83D\uDE82 third\n");
  }

  private String write(String text) throws IOException {
    return Files.writeString(folder.resolve("x.yaml"), text).toString();
  }

  private String render(Diagnostic... diagnostics) {
    return new DiagnosticText().render(List.of(diagnostics)).replace(file, "x.yaml");
  }

  private Position at(int line, int column, int length) {
    return new Position(file, line, column, length);
  }

  @Test
  void showsThePlaceTheLineTheMarkAndWhatToDo() {
    assertEquals(
        """
        x.yaml:1:8: error: `1` is wrong
            1 | first: 1
              |        ^
          expected: another
          note: x.yaml:3:1: see here
          help: write 2
        1 error in 1 file
        """,
        render(
            Diagnostic.error(Code.SYNTAX, at(1, 8, 1), "`1` is wrong")
                .expected("another")
                .note(at(3, 1, 1), "see here")
                .help("write 2")));
  }

  @Test
  void aTabIsOneBlankSoThatTheMarkStaysBelow() {
    assertEquals(
        """
        x.yaml:2:10: warning: odd
            2 |  second: [a, b]
              |          ^^^^^^
        1 warning in 1 file
        """,
        render(Diagnostic.warning(Code.SYNTAX, at(2, 10, 99), "odd")));
  }

  @Test
  void aCharacterBeyondTheBasicPlaneIsOneColumn() {
    assertTrue(
        render(Diagnostic.error(Code.SYNTAX, at(3, 3, 5), "odd"))
            .contains("    3 | \uD83D\uDE82 third\n      |   ^^^^^\n"));
  }

  @Test
  void theEndOfALineCanBeMarked() {
    assertTrue(
        render(Diagnostic.error(Code.SYNTAX, at(1, 9, 1), "odd")).contains("      |         ^\n"));
  }

  @Test
  void ofALongLineOnlyTheSurroundingsAreShown() throws IOException {
    write("a".repeat(500) + "BEAM" + "c".repeat(500));
    String text = render(Diagnostic.error(Code.SYNTAX, at(1, 501, 4), "odd"));
    String[] lines = text.split("\n");
    assertEquals("    1 | ..." + "a".repeat(80) + "BEAM" + "c".repeat(76) + "...", lines[1]);
    assertEquals("      | " + " ".repeat(83) + "^^^^", lines[2]);
  }

  @Test
  void whatCannotBeReadHasNoLine() {
    Position nowhere = new Position("no/such\0file", 3, 4, 1);
    assertEquals(
        "no/such\0file:3:4: error: gone\n1 error in 1 file\n",
        render(Diagnostic.error(Code.SYNTAX, nowhere, "gone")));
    assertEquals(
        "x.yaml:99:1: error: behind the end\n1 error in 1 file\n",
        render(Diagnostic.error(Code.SYNTAX, at(99, 1, 1), "behind the end")));
  }

  @Test
  void aFileThatIsNotUtf8HasNoLine() throws IOException {
    Files.write(folder.resolve("x.yaml"), "Gl\u00fch\n".getBytes(StandardCharsets.ISO_8859_1));
    assertEquals(
        "x.yaml:1:1: error: odd\n1 error in 1 file\n",
        render(Diagnostic.error(Code.SYNTAX, at(1, 1, 1), "odd")));
  }

  @Test
  void everyPartStaysOnItsLineAndControlCharactersStayOut() {
    String text =
        render(Diagnostic.error(Code.SYNTAX, at(1, 1, 1), "a\nb\u001B[31m").help("c\r\nd"));
    assertEquals(5, text.lines().count());
    assertTrue(text.startsWith("x.yaml:1:1: error: a b [31m\n"), text);
  }

  @Test
  void countsErrorsWarningsAndFiles() {
    assertEquals("no problems\n", render());
    Position other = Position.ofFile("other");
    assertTrue(
        render(
                Diagnostic.error(Code.SYNTAX, at(1, 1, 1), "a"),
                Diagnostic.error(Code.SYNTAX, at(1, 1, 1), "b"),
                Diagnostic.warning(Code.SYNTAX, other, "c"))
            .endsWith("2 errors and 1 warning in 2 files\n"));
  }
}
