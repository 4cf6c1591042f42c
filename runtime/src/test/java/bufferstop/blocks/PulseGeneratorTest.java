package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** PULSE_GENERATOR. */
class PulseGeneratorTest {
  private static Instance generator(long on, long off) {
    return new Instance(PulseGenerator.TYPE, PulseGenerator::step)
        .millis("ON", on)
        .millis("OFF", off);
  }

  private static String play(Instance generator, double from, int calls) {
    StringBuilder seen = new StringBuilder();
    for (int call = 0; call < calls; call++) {
      seen.append(generator.at(from + call * 0.1).on("Q") ? '1' : '0');
    }
    return seen.toString();
  }

  @Test
  void beginsWithAPulseAtTheRiseOfEn() {
    Instance generator = generator(200, 300);
    assertEquals("000", play(generator, 0, 3));
    assertEquals("110001100011", play(generator.set("EN", true), 0.37, 12));
    assertEquals("00", play(generator.set("EN", false), 1.6, 2));
    assertEquals("11000", play(generator.set("EN", true), 1.8, 5));
  }

  @Test
  void doesNotDriftWhenScansAreLate() {
    Instance generator = generator(500, 500).set("EN", true).at(0);
    int wrong = 0;
    for (int milli = 13; milli < 100_000; milli += 13) {
      boolean expected = milli % 1000 < 500;
      wrong += generator.at(milli / 1000.0).on("Q") == expected ? 0 : 1;
    }
    assertEquals(0, wrong);
  }

  @Test
  void withoutOnThereIsNoPulseAndWithoutOffNoGap() {
    assertEquals("0000", play(generator(0, 100).set("EN", true), 0, 4));
    assertEquals("0000", play(generator(0, 0).set("EN", true), 0, 4));
    assertEquals("0000", play(generator(-5, 100).set("EN", true), 0, 4));
    assertEquals("1111", play(generator(100, 0).set("EN", true), 0, 4));
    assertEquals("1111", play(generator(100, -900).set("EN", true), 0, 4));
  }

  @Test
  void timesTooLongToBeAddedAreLongerThanAnyRun() {
    Instance generator = generator(Long.MAX_VALUE / 1000, Long.MAX_VALUE / 1000).set("EN", true);
    assertEquals("11", play(generator, 0, 2));
  }
}
