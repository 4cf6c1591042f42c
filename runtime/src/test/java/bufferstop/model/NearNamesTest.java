package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearNamesTest {
  @ParameterizedTest(name = "{0} is near {1}")
  @CsvSource({
    "pit_beem, pit_beam",
    "pti_beam, pit_beam",
    "PIT_BEAM, pit_beam",
    "pit_bem, pit_beam",
    "pit_beamm, pit_beam",
    "tpye, type",
    "ot, to"
  })
  void aSlipOfThePenIsNear(String wrong, String meant) {
    assertEquals(List.of(meant), NearNames.of(wrong, List.of(meant)));
  }

  @ParameterizedTest(name = "{0} is far from {1}")
  @CsvSource({"abcdef, abcxyz", "Q, N", "stop, start", "on, off"})
  void moreThanAThirdOfTheLengthIsFar(String wrong, String other) {
    assertEquals(List.of(), NearNames.of(wrong, List.of(other)));
  }

  @Test
  void atTheLimitOfAThirdItIsStillNear() {
    assertEquals(List.of("abcdxy"), NearNames.of("abcdef", List.of("abcdxy")));
  }

  @Test
  void theNearestComeFirstAndAtMostThreeThenByName() {
    assertEquals(
        List.of("haul_lamp", "haul_lamb", "haul_lamps"),
        NearNames.of(
            "haul_lamp", List.of("haul_ramps", "haul_lamps", "haul_lamb", "haul_lamp", "tip")));
  }

  @Test
  void asksAboutWhatItFound() {
    assertEquals(
        "did you mean `beam_a` or `beam_b`?",
        NearNames.question("beam_c", List.of("beam_b", "beam_a")));
    assertEquals("", NearNames.question("beam", List.of("track")));
  }
}
