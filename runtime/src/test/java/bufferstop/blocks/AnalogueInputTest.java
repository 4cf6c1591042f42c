package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** ANALOGUE_INPUT. */
class AnalogueInputTest {
  // Source: NAMUR Recommendation NE 43 [seen second-hand in two trade notes that agree]; limits of
  // failure inclusive, strips uncertain [choice]; scaling [common practice].

  private static Instance input(double low, double high) {
    return new Instance(AnalogueInput.TYPE, AnalogueInput::step).set("LOW", low).set("HIGH", high);
  }

  /** One table: mA, value for 0 to 250, value for -50 to 150, what is told. */
  private static final String TABLE =
      """
      0.0  | 0        | 0      | LOW_FAILURE
      3.5  | 0        | 0      | LOW_FAILURE
      3.6  | 0        | 0      | LOW_FAILURE
      3.7  | -4.6875  | -53.75 | OK UNDER_RANGE UNCERTAIN
      3.8  | -3.125   | -52.5  | OK UNDER_RANGE
      3.9  | -1.5625  | -51.25 | OK UNDER_RANGE
      4.0  | 0        | -50    | OK
      8.0  | 62.5     | 0      | OK
      12.0 | 125      | 50     | OK
      16.0 | 187.5    | 100    | OK
      20.0 | 250      | 150    | OK
      20.2 | 253.125  | 152.5  | OK OVER_RANGE
      20.5 | 257.8125 | 156.25 | OK OVER_RANGE
      20.8 | 262.5    | 160    | OK OVER_RANGE UNCERTAIN
      21.0 | 0        | 0      | HIGH_FAILURE
      21.5 | 0        | 0      | HIGH_FAILURE
      """;

  @ParameterizedTest(name = "{0} mA")
  @CsvSource(delimiter = '|', textBlock = TABLE)
  void scalesAndClassesACurrent(double milliamps, double first, double second, String told) {
    Instance wide = input(0, 250).set("RAW", milliamps).at(0);
    assertEquals(told, wide.told());
    assertEquals(first, wide.real("VALUE"), 1e-9);
    assertEquals(second, input(-50, 150).set("RAW", milliamps).at(0).real("VALUE"), 1e-9);
  }

  @ParameterizedTest(name = "{0} mA")
  @CsvSource(delimiter = '|', textBlock = TABLE)
  void doesTheSameWithMicroamperesAndWithCounts(
      double milliamps, double value, double second, String told) {
    Instance microamperes =
        input(0, 250).set("RAW_LOW", 4_000).set("RAW_HIGH", 20_000).set("RAW", milliamps * 1000);
    assertEquals(told, microamperes.at(0).told());
    assertEquals(value, microamperes.real("VALUE"), 1e-9);
    double counts = Math.rint((milliamps - 4) * 2_000); // 0 to 32000 for 4 to 20 mA
    Instance converter = input(0, 250).set("RAW_LOW", 0).set("RAW_HIGH", 32_000).set("RAW", counts);
    assertEquals(told, converter.at(0).told());
    assertEquals(value, converter.real("VALUE"), 1e-9);
  }

  @Test
  void scalesAReversedRangeAndAReversedSignal() {
    assertEquals(187.5, input(250, 0).set("RAW", 8).at(0).real("VALUE"), 1e-9);
    Instance falling = input(0, 250).set("RAW_LOW", 20).set("RAW_HIGH", 4).set("RAW", 8).at(0);
    assertEquals(187.5, falling.real("VALUE"), 1e-9);
  }

  @Test
  void everyGoodValueScalesBackToItsCurrent() {
    Instance input = input(-50, 150);
    for (int microamperes = 3_800; microamperes <= 20_500; microamperes += 10) {
      double value = input.set("RAW", microamperes / 1000.0).at(0).real("VALUE");
      assertEquals(microamperes, 4_000 + 16_000 * (value + 50) / 200, 1);
      assertTrue(input.on("OK"));
    }
  }

  @Test
  void aBrokenWireIsBadAtOnceAndGoodAgainAfterTheReturnDelay() {
    Instance input = input(0, 100).millis("RETURN_DELAY", 2_000).set("RAW", 12).at(0);
    assertEquals("LOW_FAILURE", input.set("RAW", 0).at(1).told());
    assertEquals(50, input.real("VALUE"));
    assertEquals("-", input.set("RAW", 16).at(2).told());
    assertEquals(50, input.real("VALUE"));
    assertEquals("-", input.at(3.9).told());
    assertEquals("OK", input.at(4).told());
    assertEquals(75, input.real("VALUE"), 1e-9);
  }

  @Test
  void aSignalThatIsGoodAtFirstNeedsNoReturnDelay() {
    assertEquals("OK", input(0, 100).millis("RETURN_DELAY", 2_000).set("RAW", 12).at(0).told());
  }

  @Test
  void aVisitToTheStripRaisesNoFailureUnlessItLasts() {
    Instance input = input(0, 100).millis("STRIP_TIME", 5_000);
    assertEquals("OK OVER_RANGE", input.set("RAW", 20.4).at(0).told());
    assertEquals("OK OVER_RANGE UNCERTAIN", input.set("RAW", 20.6).at(1).told());
    assertEquals("OK OVER_RANGE", input.set("RAW", 20.4).at(2).told());
    assertEquals("OK OVER_RANGE UNCERTAIN", input.set("RAW", 20.6).at(3).told());
    assertEquals("OK OVER_RANGE UNCERTAIN", input.at(7.9).told());
    assertEquals("UNCERTAIN HIGH_FAILURE", input.at(8).told());
    assertEquals("UNCERTAIN LOW_FAILURE", lastingLow(5_000).told());
    assertEquals("OK UNDER_RANGE UNCERTAIN", lastingLow(0).told());
  }

  private static Instance lastingLow(long stripMillis) {
    Instance input = input(0, 100).millis("STRIP_TIME", stripMillis).set("RAW", 3.7);
    return input.at(0).at(3_600);
  }

  @Test
  void givesTheDeclaredSubstituteWhenItDoesNotHold() {
    Instance input = input(0, 100).set("HOLD", false).set("SUBSTITUTE", 110).set("RAW", 12).at(0);
    assertEquals(110, input.set("RAW", 22).at(1).real("VALUE"));
    assertEquals(50, input.set("RAW", 12).at(2).real("VALUE"));
  }

  @Test
  void givesTheSubstituteWhileThereIsNothingToHold() {
    assertEquals(-7, input(0, 100).set("SUBSTITUTE", -7).set("RAW", 0).at(0).real("VALUE"));
  }

  @Test
  void keepsTheValueInItsRangeWhenClamped() {
    Instance input = input(0, 250).set("CLAMP", true);
    assertEquals(0, input.set("RAW", 3.9).at(0).real("VALUE"));
    assertEquals("OK UNDER_RANGE", input.told());
    assertEquals(250, input.set("RAW", 20.4).at(0).real("VALUE"));
    assertEquals(250, input(250, 0).set("CLAMP", true).set("RAW", 3.9).at(0).real("VALUE"));
  }

  @Test
  void filtersLikeALowPassAndBeginsAnewAfterAFailure() {
    Instance input = input(0, 16).millis("FILTER", 1_000).set("RAW", 4).at(0).set("RAW", 12);
    assertEquals(0, input.at(1).real("VALUE"));
    assertEquals(8 * (1 - Math.exp(-1)), input.at(2).real("VALUE"), 1e-12);
    input.set("RAW", 0).at(3);
    assertEquals(16, input.set("RAW", 20).at(4).real("VALUE"));
  }

  @Test
  void withoutTheChecksAnyNumberIsMeasured() {
    Instance volts = input(0, 100).set("CHECK", false).set("RAW_LOW", 0).set("RAW_HIGH", 10);
    assertEquals(0, volts.set("RAW", 0).at(0).real("VALUE"));
    assertEquals("OK", volts.told());
    assertEquals("OK UNDER_RANGE", volts.set("RAW", -3).at(0).told());
    assertEquals("OK OVER_RANGE", volts.set("RAW", 13).at(0).told());
  }

  @Test
  void whatIsNoNumberCountsAsAFailureAndStaysOutside() {
    Instance input = input(0, 100).millis("FILTER", 1_000).set("RAW", 12).at(0);
    assertEquals("ERR", input.set("RAW", Double.NaN).at(1).told());
    assertEquals(50, input.real("VALUE"));
    assertEquals("ERR", input.set("RAW", 12).set("RAW_HIGH", 4).at(2).told());
    assertEquals("ERR", input.set("RAW_HIGH", 20).set("HIGH", Double.NaN).at(3).told());
    assertEquals("OK", input.set("HIGH", 100).at(4).told());
    assertEquals(50, input.real("VALUE"));
    assertEquals(0, input(0, 1).set("SUBSTITUTE", Double.NaN).set("RAW", 0).at(0).real("VALUE"));
  }
}
