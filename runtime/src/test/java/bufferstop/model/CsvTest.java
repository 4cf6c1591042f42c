package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The check tables of control-semantics 9.3. Source: RFC 4180, section 2 [rules 1 to 5 re-read].
 */
class CsvTest {
  @Test
  void quotesWhatMustBeQuoted() {
    assertEquals("abc", Csv.field("abc"));
    assertEquals("\"a,b\"", Csv.field("a,b"));
    assertEquals("\"say \"\"hi\"\"\"", Csv.field("say \"hi\""));
    assertEquals("\"line 1\r\nline 2\"", Csv.field("line 1\r\nline 2"));
    assertEquals("a,,\"b,c\"\r\n", Csv.line(List.of("a", "", "b,c")));
  }

  @Test
  void readsWhatItWrites() throws Csv.Broken {
    List<String> fields = List.of("a", "", "b,c", "say \"hi\"", "1\r\n2", "\r");
    assertEquals(List.of(fields), Csv.read(Csv.line(fields)));
  }

  @Test
  void theLastLineEndMayBeMissingAndLineFeedsAloneAreAccepted() throws Csv.Broken {
    List<List<String>> wanted = List.of(List.of("a", "b"), List.of("1", "2"));
    assertEquals(wanted, Csv.read("a,b\r\n1,2"));
    assertEquals(wanted, Csv.read("a,b\n1,2\n"));
  }

  @ParameterizedTest(name = "{2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '^',
      value = {
        "a,b;1,2,3 | 2 | 3 fields instead of 2",
        "\"x\"y,1 | 1 | text after the closing quote",
        "a;\"x | 2 | a quote that is not closed",
        "a;x\"y | 2 | a quote in a field that does not begin with one",
      })
  void tellsWhatIsWrongAndWhere(String text, int line, String message) {
    Csv.Broken broken = assertThrows(Csv.Broken.class, () -> Csv.read(text.replace(";", "\r\n")));
    assertEquals(message, broken.getMessage());
    assertEquals(line, broken.line());
  }
}
