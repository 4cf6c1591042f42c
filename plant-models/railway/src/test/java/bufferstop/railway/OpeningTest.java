package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.testkit.Opened;
import bufferstop.testkit.ProblemList.Problem;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpeningTest {
  private static List<Problem> problems(String settings) {
    return Opened.of(new RailwayModel(), settings).problems();
  }

  @ParameterizedTest(name = "{1} instead of {0}: {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        "at: line.low      | at: lyne.low      | at       | `lyne.low` is no end of a segment",
        "tub:              | Tub:              | Tub      | cannot be part of a port's name",
        "near:             | ne-ar:            | ne-ar    | cannot be part of a port's name",
        "middle:           | 2nd:              | 2nd      | cannot be part of a port's name",
        "from: -100        | from: -0.05       | start    | `tub` stands 0.01 m beyond the track",
        "capacity: 0.1     | load: 0.2         | load     | more than it can hold",
        "start: 0.16       | start: -0.16      | coupled_at_start | no neighbour in front",
        "start: 0.16       | start: 0.17       | start    | but does not stand at it",
        "gap: 0.01         | max_speed: 0.01   | max_speed | no closing speed couples",
        "position: 0.9     | position: 900     | position | beam `far` at `900.0` is off",
        "output: light     | p_off: 0.6        | p_off    | beam `far` clears at a share",
        "position: 0.6     | position: -900    | position | reed `middle` at `-900.0` is off",
        "release: 0.015    | release: 0.011    | release  | would open where it still closes",
        "operate: 0.012    | closest: 0.012    | closest  | never comes near enough",
        "position: 0.065   | position: 101     | position | uncoupler `uncoupler` at `101.0`",
        "position: 0.0     | position: -101    | position | hopper `hopper` at `-101.0`",
        "flow: 0.02        | orifice: 0.01     | orifice  | nothing flows through this orifice",
        "flow: 0.02        | grain: 0.01       | flow     | has no flow",
        "to: 0.5           | to: 0.2           | to       | ends before it begins",
        "to: 0.5           | to: 500           | to       | discharge `discharge` at `500.0`",
        "from: 0.3         | from: -500        | from     | discharge `discharge` at `-500.0`"
      })
  void saysWhatIsWrongAndHowToMendIt(String old, String now, String parameter, String message) {
    List<Problem> found = problems(amended(old, now));
    assertEquals(1, found.size(), found.toString());
    assertEquals(parameter, found.get(0).parameter());
    assertTrue(found.get(0).message().contains(message), found.get(0).message());
    assertFalse(found.get(0).expected().isBlank());
    assertFalse(found.get(0).help().isBlank());
  }

  /** Replaces a line; a new name goes in after it where the old one is required. */
  private static String amended(String old, String now) {
    String key = now.substring(0, now.indexOf(':'));
    boolean added = List.of("load", "max_speed", "p_off", "closest").contains(key);
    int at = Lines.FULL.indexOf(old);
    int indent = at - Lines.FULL.lastIndexOf('\n', at) - 1;
    return Lines.FULL.replace(
        old + "\n", (added ? old + "\n" + " ".repeat(indent) : "") + now + "\n");
  }

  @Test
  void vehicleBeyondTheShedEndIsAProblem() {
    List<Problem> found = problems(Lines.between(Lines.REFERENCE, -100, 0.24));
    assertEquals(1, found.size());
    assertEquals("`loco` stands 0.01 m beyond the track at `line.high`", found.get(0).message());
    assertEquals("its body on the track", found.get(0).expected());
  }

  @Test
  void wholeLineIsInOrder() {
    assertEquals(List.of(), problems(Lines.FULL));
    assertEquals(List.of(), problems(Lines.REFERENCE));
  }

  @Test
  void uncoupledNeighboursMayTouchButNotOverlap() {
    String apart = Lines.FULL.replace("coupled_at_start: TRUE", "coupled_at_start: FALSE");
    assertEquals(List.of(), problems(apart));
    List<Problem> found = problems(apart.replace("start: 0.16", "start: 0.15"));
    assertEquals("`tub` and `loco` share a place", found.get(0).message());
    assertEquals("move one of them by 0.01 m", found.get(0).help());
  }

  @Test
  void hopperWithTwoFlowsIsAProblem() {
    List<Problem> found =
        problems(Lines.FULL.replace("flow: 0.02", "flow: 0.02\n    orifice: 0.01"));
    assertEquals("the flow of hopper `hopper` is given twice", found.get(0).message());
  }

  @Test
  void reportsAllProblemsInOnePass() {
    String bad =
        Lines.FULL.replace("release: 0.015", "release: 0.011").replace("to: 0.5", "to: 0.2");
    assertEquals(2, problems(bad).size());
  }
}
