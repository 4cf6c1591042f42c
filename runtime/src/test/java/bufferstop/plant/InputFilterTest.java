package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

// Source: filter of a digital input that delays both edges by its time and drops anything shorter,
// F6.4a of the reference [derived]. Strings are one character a step: what arrives at the beginning
// of the step, and what the filter shows at its end.
class InputFilterTest {
  private static final long STEP = 1_000;

  private static String filtered(long micros, String arriving) {
    InputFilter filter = new InputFilter(micros);
    filter.start(arriving.charAt(0) - '0');
    StringBuilder shown = new StringBuilder();
    for (char value : arriving.toCharArray()) {
      shown.append((int) filter.step(value - '0', STEP));
    }
    return shown.toString();
  }

  @ParameterizedTest(name = "{0} µs: {1} shows as {2}")
  @CsvSource({
    "3000, 001111110000000, 000011111100000", // three steps after its beginning, either edge
    "1000, 001111110000000, 001111110000000", // at the end of the step in which it came
    "3000, 001100000000000, 000000000000000", // 2 ms are dropped
    "3000, 001110000000000, 000011100000000", // 3 ms are not
    "3000, 110011111111111, 111111111111111", // a gap of 2 ms likewise
    "3000, 110001111111111, 111100011111111",
    "3000, 001101101101100, 000000000000000", // chatter never lasts
    "2500, 001110000000000, 000011100000000", // no whole number of steps: the next one
  })
  void delaysBothEdgesAndDropsWhatIsShorter(long micros, String arriving, String shown) {
    assertEquals(shown, filtered(micros, arriving));
  }

  @Test
  void startsSettled() {
    assertEquals("1111", filtered(20_000, "1111"));
  }
}
