package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** MIDDLE_OF_3. */
class MiddleOfThreeTest {
  // Source: middle value, and the higher or lower of two [common practice]; 40, 42, 90 gives 42,
  // and 40, bad, 90 with the higher gives 90.

  private static Instance middle(double a, double b, double c) {
    return new Instance(MiddleOfThree.TYPE, MiddleOfThree::step)
        .set("A", a)
        .set("B", b)
        .set("C", c);
  }

  @ParameterizedTest
  @CsvSource({
    "40, 42, 90",
    "40, 90, 42",
    "42, 40, 90",
    "42, 90, 40",
    "90, 40, 42",
    "90, 42, 40",
    "42, 42, 90",
    "42, 90, 42",
    "-1, 42, 42"
  })
  void takesTheMiddleInWhateverOrder(double a, double b, double c) {
    Instance middle = middle(a, b, c).at(0);
    assertEquals(42, middle.real("OUT"));
    assertEquals("OK", middle.told());
  }

  @Test
  void takesTheHigherOrTheLowerOfTwo() {
    Instance middle = middle(40, 41, 90).set("B_OK", false).at(0);
    assertEquals(90, middle.real("OUT"));
    assertEquals(40, middle.set("HIGHER", false).at(0).real("OUT"));
    assertEquals("OK BAD", middle.told());
  }

  @Test
  void aChannelThatIsNoNumberIsBad() {
    assertEquals(90, middle(40, Double.NaN, 90).at(0).real("OUT"));
    assertEquals(90, middle(Double.POSITIVE_INFINITY, 40, 90).at(0).real("OUT"));
    assertEquals(7, middle(Double.NaN, Double.NaN, 7).at(0).real("OUT"));
  }

  @Test
  void staysWhereItWasWithNoChannelLeft() {
    Instance middle = middle(40, 42, 90).at(0);
    middle.set("A", Double.NaN).set("B_OK", false).set("C_OK", false).at(1);
    assertEquals(42, middle.real("OUT"));
    assertEquals("BAD", middle.told());
  }

  @Test
  void tellsOfChannelsFurtherApartThanTheToleranceForTheDelay() {
    Instance middle = middle(40, 42, 45).set("TOLERANCE", 5).millis("DELAY", 1_000);
    assertEquals("OK", middle.at(0).told());
    assertEquals("OK", middle.set("C", 45.1).at(1).told());
    assertEquals("OK", middle.at(1.9).told());
    assertEquals("OK DIFFERS", middle.at(2).told());
    assertEquals("OK BAD", middle.set("C_OK", false).at(3).told());
  }
}
