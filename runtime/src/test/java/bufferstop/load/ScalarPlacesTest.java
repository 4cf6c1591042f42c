package bufferstop.load;

import static bufferstop.load.YamlTrees.place;
import static bufferstop.load.YamlTrees.text;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.SourceText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScalarPlacesTest {
  @Test
  void ofAPlainScalarCountFromOne() {
    SourceText text = text("when: a AND beam\n", "when");
    assertEquals("1:7+1", place(text, "a"));
    assertEquals("1:13+4", place(text, "beam"));
    assertEquals("1:7+10", place(text, "a AND beam"));
  }

  @Test
  void ofASingleQuotedScalarPassOverDoubledQuotes() {
    SourceText text = text("text: 'it''s beam'\n", "text");
    assertEquals("it's beam", text.value());
    assertEquals("1:8+2", place(text, "it"));
    assertEquals("1:14+4", place(text, "beam"));
  }

  @ParameterizedTest(name = "after {0}")
  @CsvSource({
    "'\\\"', 11",
    "'\\\\', 11",
    "'\\n', 11",
    "'\\t', 11",
    "'\\x41', 13",
    "'\\u0041', 15",
    "'\\U0001F682', 19",
    "'\\ ', 11"
  })
  void ofADoubleQuotedScalarPassOverEscapes(String escape, int column) {
    SourceText text = text("text: \"a" + escape + "beam\"\n", "text");
    assertEquals("1:" + column + "+4", place(text, "beam"));
  }

  @Test
  void ofAnEscapedCharacterAreThoseOfItsEscape() {
    SourceText text = text("text: \"ab\\x43d\"\n", "text");
    assertEquals("abCd", text.value());
    assertEquals("1:10+1", place(text, "C"));
  }

  @Test
  void ofALineContinuedByABackslashAreOnTheNextLine() {
    SourceText text = text("text: \"one \\\n   beam\"\n", "text");
    assertEquals("one beam", text.value());
    assertEquals("2:4+4", place(text, "beam"));
  }

  @Test
  void ofAQuotedScalarOverLinesAreWhereItsWordsStand() {
    SourceText text = text("text: 'one\n\n  two\n  beam'\n", "text");
    assertEquals("one\ntwo beam", text.value());
    assertEquals("3:3+3", place(text, "two"));
    assertEquals("4:3+4", place(text, "beam"));
  }

  @Test
  void ofAPlainScalarOverLinesAreWhereItsWordsStand() {
    SourceText text = text("when: a AND\n    beam\n  OR other\n", "when");
    assertEquals("a AND beam OR other", text.value());
    assertEquals("2:5+4", place(text, "beam"));
    assertEquals("3:6+5", place(text, "other"));
  }

  @Test
  void ofABlockAreItsOwnLinesAndColumns() {
    SourceText text = text("logic: |  # note\n  IF a THEN\n\n    beam := b;\n  END_IF;\n", "logic");
    assertEquals("2:3+2", place(text, "IF"));
    assertEquals("4:5+4", place(text, "beam"));
    assertEquals("4:13+2", place(text, "b;"));
    assertEquals("5:3+7", place(text, "END_IF;"));
  }

  @Test
  void ofAFoldedBlockAreItsOwnLinesAndColumns() {
    SourceText text = text("text: >-\n  one\n  beam\n\n  two\n", "text");
    assertEquals("one beam\ntwo", text.value());
    assertEquals("3:3+4", place(text, "beam"));
    assertEquals("5:3+3", place(text, "two"));
  }

  @Test
  void countACharacterBeyondTheBasicPlaneOnce() {
    SourceText text =
        text("a: {text: \"\uD83D\uDE82\uD83D\uDE82\", when: x AND beam}\n", "a", "when");
    assertEquals("1:23+1", place(text, "x"));
    assertEquals("1:29+4", place(text, "beam"));
    SourceText within = text("text: \uD83D\uDE82 beam\n", "text");
    assertEquals("1:9+4", place(within, "beam"));
    assertEquals("1:7+1", place(within, "\uD83D\uDE82"));
  }

  @Test
  void countATabAsOneColumn() {
    assertEquals("1:9+4", place(text("text: a\tbeam\n", "text"), "beam"));
  }
}
