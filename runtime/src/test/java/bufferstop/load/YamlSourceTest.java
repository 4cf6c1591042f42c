package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Tree;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class YamlSourceTest {
  private final Diagnostics problems = new Diagnostics();

  private Tree read(String text) {
    return YamlSource.read("x.yaml", text, problems);
  }

  private Diagnostic only() {
    assertEquals(1, problems.sorted().size(), () -> problems.sorted().toString());
    return problems.sorted().get(0);
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {"no", "on", "012", "1e3", "0x10", "~", "null", "2026-01-01", "1:30", "1_0"})
  void aScalarIsTheTextThatStandsThere(String text) {
    assertEquals(text, YamlTrees.text("a: " + text + "\n", "a").value());
  }

  @Test
  void keysKeepTheirOrderAndTheirPlace() {
    Tree.Table table = YamlTrees.table("b: 1\n'a c': 2\n", problems);
    assertEquals(List.of("b", "a c"), table.entries().stream().map(e -> e.key().text()).toList());
    assertEquals(5, table.entries().get(1).key().position().length());
    assertEquals("x.yaml:2:1", table.entries().get(1).key().position().toString());
  }

  @Test
  void aKeyGivenTwiceIsReportedAndTheFirstKept() {
    Tree.Table table = YamlTrees.table("a: 1\nb: 2\na: 3\n", problems);
    assertEquals("1", ((Tree.Scalar) table.get("a")).value());
    assertEquals("`a` is given twice", only().message());
    assertEquals("x.yaml:3:1", only().position().toString());
    assertEquals("x.yaml:1:1", only().notes().get(0).position().toString());
  }

  @Test
  void anAnchorIsReportedOnceAndWhatItHoldsIsRead() {
    Tree.Table table = YamlTrees.table("a: &x {b: 1}\nc: *x\nd: *x\n", problems);
    assertEquals("1", ((Tree.Scalar) ((Tree.Table) table.get("d")).get("b")).value());
    assertEquals("x.yaml:1:4", only().position().toString());
  }

  @Test
  void anAnchorThatHoldsItselfEnds() {
    assertNotNull(read("a: &x [b, *x]\n"));
    assertEquals("anchors and aliases are not read in project files", only().message());
  }

  @Test
  void aliasesThatMultiplyEnd() {
    StringBuilder text = new StringBuilder("a0: &a0 [x, x]\n");
    for (int i = 1; i < 25; i++) {
      text.append("a%d: &a%d [*a%d, *a%d]\n".formatted(i, i, i - 1, i - 1));
    }
    assertNotNull(read(text.toString()));
    assertEquals(25, problems.sorted().size());
  }

  @ParameterizedTest(name = "[{index}]")
  @ValueSource(strings = {"", "   \n", "# nothing\n"})
  void aFileWithNothingInItIsReported(String text) {
    assertNull(read(text));
    assertEquals("the file is empty", only().message());
    assertEquals("x.yaml:1:1", only().position().toString());
  }

  @Test
  void anEmptyDocumentIsAnEmptyValue() {
    assertEquals("", ((Tree.Scalar) read("---\n")).value());
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          1:5 | a: b: c
          2:1 | a:\\n\\tb: 1
          1:10 | a: [b, c]: ]
          1:9 | a: 'open\\n
          1:4 | a: *unknown
          1:4 | a: @at
          """)
  void whatIsNotYamlIsOneProblemWithItsPlace(String place, String text) {
    String yaml = text.replace("\\n", "\n").replace("\\t", "\t");
    assertNull(read(yaml));
    assertTrue(only().message().startsWith("this is not YAML: "), only().message());
    assertEquals("x.yaml:" + place, only().position().toString());
  }

  @Test
  void theEndOfAFileIsShownAfterItsLastWord() {
    assertNull(read("a: [b,\nc\n\n\n"));
    assertEquals("x.yaml:2:2", only().position().toString());
  }

  @Test
  void aSecondDocumentIsNotYamlForUs() {
    assertNull(read("a: 1\n---\nb: 2\n"));
    assertTrue(only().message().contains("another document"), only().message());
  }

  @Test
  void aControlCharacterIsShownWhereItStands() {
    assertNull(read("a: 1\nb: \uD83D\uDE82 \u0007\n"));
    assertEquals("the character U+0007 is not allowed", only().message());
    assertEquals("x.yaml:2:6", only().position().toString());
  }

  @ParameterizedTest(name = "{0} levels")
  @ValueSource(ints = {60, 100_000})
  void deepNestingIsAProblemNotAFailure(int levels) {
    assertNull(read("a: " + "[".repeat(levels) + "]".repeat(levels)));
    assertTrue(only().message().contains("Nesting Depth"), only().message());
  }

  @Test
  void aHugeMappingIsReadInTime() {
    StringBuilder text = new StringBuilder("text: \uD83D\uDE82\n");
    for (int i = 0; i < 60_000; i++) {
      text.append("key_").append(i).append(": {a: 1, b: two}\n");
    }
    Tree.Table table = YamlTrees.table(text.toString(), problems);
    assertEquals(60_001, table.entries().size());
    Tree.Table last = (Tree.Table) table.entries().get(60_000).value();
    assertEquals("x.yaml:60001:22", last.get("b").position().toString());
  }

  @Test
  void aCutExpressionIsSaidOnceAndReadWhole() {
    Tree.Table table = YamlTrees.table("a: {when: MAX(b, c, d) > 3, text: x}\n", problems);
    Tree.Table a = (Tree.Table) table.get("a");
    assertEquals("MAX(b, c, d) > 3", ((Tree.Scalar) a.get("when")).value());
    assertEquals("x", ((Tree.Scalar) a.get("text")).value());
    assertEquals("x.yaml:1:16", only().position().toString());
    assertEquals("write when: \"MAX(b, c, d) > 3\"", only().help());
    assertEquals("1:21+1", YamlTrees.place(((Tree.Scalar) a.get("when")).text(), "d"));
  }

  @Test
  void aCutExpressionOverLinesIsReadWhole() {
    Tree.Table table = YamlTrees.table("a: {when: MAX(b,\n      c) > 3}\n", problems);
    Tree.Scalar when = (Tree.Scalar) ((Tree.Table) table.get("a")).get("when");
    assertEquals("2:7+1", YamlTrees.place(when.text(), "c"));
    assertEquals("write when: \"MAX(b, c) > 3\"", only().help());
  }

  @Test
  void aKeyWithoutValueIsNoCutExpression() {
    Tree.Table table = YamlTrees.table("a: {type: BOOL, momentary}\n", problems);
    assertEquals("", ((Tree.Scalar) ((Tree.Table) table.get("a")).get("momentary")).value());
    assertEquals(List.of(), problems.sorted());
  }
}
