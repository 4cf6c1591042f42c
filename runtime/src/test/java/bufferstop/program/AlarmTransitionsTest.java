package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Every row of the transition table of alarms. */
class AlarmTransitionsTest {
  // Source: ISA-18.2, alarm state-transition diagram, letters A to I [from memory, not re-read];
  // re-alarm OPC 10000-9, B.1.5 [re-read]; refused resets, acknowledgements that do nothing and
  // several ways of setting aside at once [project choice]; changes between timed and one-shot
  // shelving 5.8.17 [re-read, extracts].

  private static final String ASIDE = ", suppressed: quiet, shelve_for: T#60s";

  private static String play(boolean latching, String options, String events) {
    String all = options + (latching ? ", latching: TRUE" : "");
    return AlarmStatesTest.states(AlarmStatesTest.alarm(all), events);
  }

  @ParameterizedTest(name = "{0}, {1}: {2}, {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        // from A
        "on        | not latching | B     | comes",
        "on        | latching     | B     | comes",
        // from B
        "on ack    | not latching | B C   | acknowledge",
        "on ack    | latching     | B C   | acknowledge",
        "on off    | not latching | B D   | condition false",
        "on off    | latching     | B E   | condition false",
        // from C
        "on ack off | not latching | B C A | condition false",
        "on ack off | latching     | B C F | condition false",
        // from D
        "on off ack | not latching | B D A | acknowledge",
        "on off on  | not latching | B D B | condition true again",
        // from E
        "on off ack   | latching | B E F | acknowledge",
        "on off on    | latching | B E B | condition true again",
        "on off reset | latching | B E E | reset refused",
        // from F
        "on ack off on    | latching | B C F B | condition true again",
        "on ack off reset | latching | B C F A | reset",
        // an acknowledgement or a reset that has nothing to do
        "ack               | not latching | A       | no-op",
        "on ack ack        | not latching | B C C   | no-op",
        "on ack off ack    | latching     | B C F F | no-op",
        "reset             | latching     | A       | no-op",
        "on reset          | latching     | B B     | no-op",
        "on ack reset      | latching     | B C C   | no-op",
      })
  void withoutSettingAside(String events, String latching, String states, String row) {
    assertEquals(states, play(latching.equals("latching"), "", events), row);
  }

  @ParameterizedTest(name = "latching {0}")
  @CsvSource({"false", "true"})
  void anAcknowledgedOneComesAgainWhenItStandsForTooLong(boolean latching) {
    assertEquals("B C C B", play(latching, ", re_alarm: T#10s", "on ack +9900 +100"));
  }

  @ParameterizedTest(name = "latching {0}")
  @CsvSource({"false, B A", "true, B F"})
  void oneThatNeedsNoAcknowledgementGoesByItself(boolean latching, String states) {
    assertEquals(states, play(latching, ", acknowledge: FALSE", "on off"));
  }

  /** Each of A to F, set aside in each of three ways, brought back with either condition. */
  static List<String> setAside() {
    List<String> all = new ArrayList<>();
    List<String> from =
        List.of("A", "on B", "on ack C", "on off D", "L on off E", "L on ack off F");
    List<String> ways = List.of("shelve G unshelve", "quiet H loud", "out I back");
    for (String state : from) {
      for (String way : ways) {
        for (String end : List.of("off A", "on B")) {
          all.add(state + " | " + way + " | " + end);
        }
      }
    }
    return all;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("setAside")
  void isSetAsideAndComesBackByItsConditionAlone(String row) {
    String[] parts = row.split(" \\| ");
    boolean latching = parts[0].startsWith("L ");
    List<String> before = new ArrayList<>(List.of(parts[0].replace("L ", "").split(" ")));
    String state = before.remove(before.size() - 1);
    String[] way = parts[1].split(" ");
    String[] end = parts[2].split(" ");
    List<String> events = new ArrayList<>(before);
    events.addAll(List.of(way[0], end[0], way[2]));
    String[] states = play(latching, ASIDE, String.join(" ", events)).split(" ");
    if (!before.isEmpty()) {
      assertEquals(state, states[before.size() - 1], row);
    }
    assertEquals(way[1], states[before.size()], "set aside");
    assertEquals(way[1], states[before.size() + 1], "whatever its condition does meanwhile");
    assertEquals(end[1], states[before.size() + 2], "brought back");
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = ':',
      value = {
        // silent until all have ended
        "on shelve quiet unshelve loud : B G G H B",
        "on shelve out unshelve back : B G G I B",
        "on quiet out loud back : B H H I B",
        // timed, then one-shot; one-shot, then timed: each begins its own time
        "shelve +30000 once +30000 +29900 +100 : G G G G G A",
        "once on shelve off : G G G G",
        // a one-shot shelf ends when the alarm goes, or with the time
        "on once off : B G A",
        "on once +60000 : B G B",
        // commands to one that is set aside reach nothing
        "on shelve ack unshelve : B G G B",
      })
  void waysOfSettingAsideTogether(String events, String states) {
    assertEquals(states, play(false, ASIDE, events));
  }
}
