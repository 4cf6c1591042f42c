package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class SourceTextTest {
  private final SourceText twoLines =
      new SourceText(
          "ab\ncd", "x.yaml", new int[] {4, 4, 4, 5, 5, 5}, new int[] {7, 8, 9, 3, 4, 5});

  @Test
  void aSpanWithinALineHasItsLength() {
    assertEquals(new Position("x.yaml", 4, 7, 2), twoLines.at(0, 2));
    assertEquals(new Position("x.yaml", 5, 4, 1), twoLines.at(4, 5));
  }

  @Test
  void aSpanOverLinesIsShownAtItsBeginning() {
    assertEquals(new Position("x.yaml", 4, 8, 1), twoLines.at(1, 5));
  }

  @Test
  void theEndIsAPlaceAndWhatLiesBehindItIsTheEnd() {
    assertEquals(new Position("x.yaml", 5, 5, 1), twoLines.at(5, 5));
    assertEquals(new Position("x.yaml", 5, 5, 1), twoLines.at(90, 99));
  }

  @Test
  void theWholeIsItsFirstLine() {
    assertEquals(new Position("x.yaml", 4, 7, 2), twoLines.whole());
    assertEquals(new Position("text", 1, 1, 1), SourceText.of("").whole());
  }
}
