package bufferstop.feeder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.testkit.Opened;
import bufferstop.testkit.ProblemList.Problem;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is wrong with settings is said where it stands, and how to mend it. */
class OpeningTest {
  private static List<Problem> problems(String settings) {
    return Opened.of(new FeederModel(), settings).problems();
  }

  @ParameterizedTest(name = "{1} instead of {0}: {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        "from: busbar      | from: bussbar     | from    | no node named `bussbar`",
        "node: depot       | node: depo        | node    | no node named `depo`",
        "node: mill        | node: millx       | node    | no node named `millx`",
        "primary: 10000    | primary: 400      | primary | made for another voltage: `400.0`",
        "secondary: 400    | resistance: 0.1   | resistance | exceeds its impedance",
        "houses:           | Houses:           | Houses  | cannot be part of a port's name",
        "kind: motor       | start_current: 1.2 | start_current | cannot reach its rated power",
        "kind: current     | dc_volts: 5       | dc_volts | load `office` is no rectifier",
        "order: 5          | order: 3          | order   | order `3` is given twice",
        "breaker: b1       | breaker: b2       | breaker | no breaker named `b2`",
        "reset: dependent  | curve: iec_very_inverse | reset_time | has no reset of its own",
        "breaker: b1       | backup: b1        | backup  | backed up by its own breaker",
        "pick_up: 30       | pick_up: 3        | pick_up | picks up at `3.0`, below the time",
        "pick_up: 40       | drop_out: 0.9     | drop_out | would let go on the wrong side",
        "dead_time_1: 0.4  | dead_time_1: 0    | dead_time_1 | would reclose at once",
        "load: tram        | load: trams       | load    | no load named `trams`",
        "load: tram        | line: l3          | line    | measures two things",
        "phase: b          | let_go: 0.9       | let_go  | would let go where it pulls in",
        "rating: 16        | line: l9          | line    | no line or transformer named `l9`",
        "joins: cn         | line: t1          | line    | no line named `t1`"
      })
  void saysWhatIsWrongAndHowToMendIt(String old, String now, String parameter, String message) {
    List<Problem> found = problems(amended(old, now));
    assertEquals(1, found.size(), found.toString());
    assertEquals(parameter, found.get(0).parameter());
    assertTrue(found.get(0).message().contains(message), found.get(0).message());
    assertFalse(found.get(0).expected().isBlank());
    assertFalse(found.get(0).help().isBlank());
  }

  /** Replaces a line, or its neighbour of the same key, or adds one after it. */
  private static String amended(String old, String now) {
    String key = now.substring(0, now.indexOf(':'));
    List<String> lines = new ArrayList<>(List.of(Networks.VILLAGE.split("\n")));
    int at = 0;
    while (!lines.get(at).strip().equals(old)) {
      at++;
    }
    String indent = lines.get(at).substring(0, lines.get(at).indexOf(old));
    if (old.startsWith(key + ":") || old.endsWith(":")) {
      lines.set(at, indent + now);
    } else {
      boolean replaced = false;
      for (int d : new int[] {-1, 1}) {
        String other = lines.get(at + d);
        if (!replaced && other.startsWith(indent + key + ":")) {
          lines.set(at + d, indent + now);
          replaced = true;
        }
      }
      if (!replaced) {
        lines.add(at + 1, indent + now);
      }
    }
    return String.join("\n", lines) + "\n";
  }

  @Test
  void villageIsInOrder() {
    assertEquals(List.of(), problems(Networks.VILLAGE));
    assertEquals(List.of(), problems(Networks.LOW_VOLTAGE));
  }

  @Test
  void nearestNameIsOffered() {
    List<Problem> found = problems(Networks.VILLAGE.replace("node: depot", "node: depto"));
    assertEquals("did you mean `depot`?", found.get(0).help());
  }

  @Test
  void linesThatFeedOneAnotherInACircleAreNamed() {
    String circle =
        Networks.LOW_VOLTAGE
            + "  l2:\n    from: x\n    to: y\n    length: 1\n    resistance: 1\n"
            + "  l3:\n    from: y\n    to: x\n    length: 1\n    resistance: 1\n";
    List<Problem> found = problems(circle);
    assertEquals(2, found.size());
    assertTrue(found.get(0).message().contains("nothing feeds `x`"), found.get(0).message());
  }

  @Test
  void oneSourceAndNoMore() {
    String none = "volts: 400\n";
    assertEquals("nothing feeds the network", problems(none).get(0).message());
    String two = "volts: 400\ngrid:\n  short_circuit_power: 1000\ngenerator:\n  rating: 1000\n";
    assertEquals("two sources feed the network", problems(two).get(0).message());
  }

  @Test
  void breakerOnALineThatHasOneIsAProblem() {
    String two =
        Networks.relay("instantaneous:\n  pick_up: 1\n")
            .replace("  b1:\n", "  b0:\n    line: l1\n  b1:\n");
    assertEquals("`l1` has a breaker already", problems(two).get(0).message());
  }

  @Test
  void relayWithoutAFunctionIsAProblem() {
    assertEquals("relay `r1` has no function", problems(Networks.relay("")).get(0).message());
  }

  @Test
  void meltingCurveRunsDownwards() {
    String fuse =
        Networks.LOW_VOLTAGE
            + "fuses:\n  f1:\n    line: l1\n    rating: 10\n    curve:\n"
            + "      p:\n        current: 20\n        time: 5\n"
            + "      q:\n        current: 10\n        time: 50\n";
    assertTrue(problems(fuse).get(0).message().contains("does not follow the one before"));
  }

  @Test
  void allProblemsComeInOnePass() {
    String bad =
        Networks.VILLAGE
            .replace("node: depot", "node: depo")
            .replace("breaker: b1", "breaker: b9")
            .replace("dead_time_1: 0.4", "dead_time_1: 0");
    assertEquals(5, problems(bad).size(), problems(bad).toString()); // two loads and a coil
  }

  /** Warnings of settings that can be run. */
  static List<String> warnings(String settings) {
    Opened opened = Opened.of(new FeederModel(), settings);
    assertEquals(List.of(), opened.problems());
    return opened.warnings();
  }

  private static String series(double upstream, double downstream) {
    return """
    volts: 400
    grid:
      short_circuit_power: 5000000
    lines:
      l0:
        from: source
        to: middle
        length: 100
        resistance: 0.2
      l1:
        from: middle
        to: end
        length: 100
        resistance: 0.2
    breakers:
      b0:
        line: l0
      b1:
        line: l1
    relays:
      r0:
        breaker: b0
        ct:
          primary: 200
          secondary: 1
        time_overcurrent:
          pick_up: 1
          curve: iec_standard_inverse
          multiplier: %s
      r1:
        breaker: b1
        ct:
          primary: 150
          secondary: 1
        time_overcurrent:
          pick_up: 1
          curve: iec_standard_inverse
          multiplier: %s
    """
        .formatted(upstream, downstream);
  }

  @Test
  void tooSmallAGradingIntervalIsWarnedOf() {
    assertEquals(List.of(), warnings(series(0.4, 0.1)));
    List<String> found = warnings(series(0.15, 0.1));
    assertEquals(1, found.size());
    assertTrue(found.get(0).startsWith("relay r0 follows it by"), found.get(0));
    assertTrue(warnings(series(0.05, 0.4)).get(0).startsWith("relay r0 operates before it"));
  }

  @ParameterizedTest(name = "another line to {0}")
  @CsvSource({
    "busbar, closes a loop: `busbar` is fed already",
    "source, closes a loop: `source` is fed already",
    "end, begins and ends at `end`"
  })
  void loopIsNamed(String to, String message) {
    String loop =
        Networks.LOW_VOLTAGE
            + "  l2:\n    from: end\n    to: "
            + to
            + "\n    length: 1\n    resistance: 1\n";
    List<Problem> found = problems(loop);
    assertEquals(1, found.size(), found.toString());
    assertTrue(found.get(0).message().contains(message), found.get(0).message());
    assertEquals("to", found.get(0).parameter());
  }

  /**
   * The gap at the bolted fault beyond r1, worked out by hand from the curve and the impedances.
   */
  @Test
  void gapIsThatOfTheCurves() {
    String found = warnings(series(0.2, 0.1)).get(0);
    double z = Math.hypot(0.02 + 0.1 * 0.032 / Math.sqrt(1.01), 0.032 / Math.sqrt(1.01));
    double amperes = 400 / Math.sqrt(3) / z;
    double near = 0.1 * 0.14 / (Math.pow(Math.min(20, amperes / 150), 0.02) - 1) + 0.058;
    double above = 0.2 * 0.14 / (Math.pow(Math.min(20, amperes / 200), 0.02) - 1);
    assertTrue(found.contains(String.format(java.util.Locale.ROOT, "%.3f s", above - near)), found);
  }

  @Test
  void relayThatSeesNoFaultIsWarnedOf() {
    String wrong = series(0.4, 0.1).replace("primary: 150", "primary: 15000");
    assertTrue(warnings(wrong).get(0).startsWith("relay r1 sees no phase fault"));
  }

  /** The series of two relays that look at earth faults alone. */
  private static String earth(double upstream, double downstream) {
    return series(upstream, downstream).replace("time_overcurrent:", "earth_time_overcurrent:");
  }

  @Test
  void earthElementsAreComparedWithEarthElements() {
    assertEquals(List.of(), warnings(earth(0.5, 0.1)));
    Opened close = Opened.of(new FeederModel(), earth(0.2, 0.1));
    assertEquals(1, close.warnings().size(), close.warnings().toString());
    assertTrue(close.warnings().get(0).contains("clears an earth fault of"));
    assertTrue(warnings(earth(0.05, 0.4)).get(0).startsWith("relay r0 operates before it"));
  }

  /** A fast phase element above says nothing of an earth element below, nor the other way round. */
  @Test
  void earthElementsAreNotComparedWithPhaseElements() {
    String mixed = series(0.05, 0.4).replaceFirst("time_overcurrent:", "earth_time_overcurrent:");
    assertEquals(List.of(), warnings(mixed));
  }

  /** Worked out by hand: the line's return is as long as its phase conductor. */
  @Test
  void earthFaultIsTheMostAnEarthElementIsComparedAt() {
    String found = warnings(earth(0.2, 0.1)).get(0);
    double z = Math.hypot(0.04 + 0.1 * 0.032 / Math.sqrt(1.01), 0.032 / Math.sqrt(1.01));
    double amperes = 400 / Math.sqrt(3) / z;
    double near = 0.1 * 0.14 / (Math.pow(Math.min(20, amperes / 150), 0.02) - 1) + 0.058;
    double above = 0.2 * 0.14 / (Math.pow(Math.min(20, amperes / 200), 0.02) - 1);
    assertTrue(found.contains(String.format(java.util.Locale.ROOT, "%.3f s", above - near)), found);
  }

  @Test
  void earthElementThatSeesNoFaultIsWarnedOf() {
    String wrong = earth(0.5, 0.1).replace("primary: 150", "primary: 15000");
    assertTrue(warnings(wrong).get(0).startsWith("relay r1 sees no earth fault"));
  }

  @Test
  void chartShowsPhaseAndEarthElements() {
    String both =
        series(0.4, 0.1)
            + """
                earth_time_overcurrent:
                  pick_up: 0.2
                  curve: iec_standard_inverse
                  multiplier: 0.1
            """;
    String svg = new Bench(both).run(0.01).plant.picture();
    assertTrue(svg.contains(">relay r1</text>") && svg.contains(">relay r1, earth</text>"), svg);
    assertFalse(svg.contains("relay r0, earth"), svg);
    assertFalse(svg.contains("NaN") || svg.contains("Infinity"), svg);
  }
}
