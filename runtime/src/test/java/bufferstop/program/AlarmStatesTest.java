package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Alarms through all their states. */
class AlarmStatesTest {
  // Source: ISA-18.2, alarm state-transition diagram, states A to I [from memory, not re-read];
  // shelving OPC 10000-9, 5.8.17 [re-read, extracts]; delays and deadband B.1.5 [re-read]; what is
  // marked there as a project choice is one here.

  static SmallController alarm(String options) {
    return SmallController.of(
            """
            operator: {hot: {type: BOOL}, quiet: {type: BOOL}, ack: {type: BOOL}}
            acknowledge: ack
            alarms:
              a: {when: hot%s}
            """
                .formatted(options))
        .scan();
  }

  private static void momentarily(SmallController on, String point) {
    on.offer(point, 1);
    on.scan();
  }

  /** Plays events, 100 ms apart; {@code +60000} lets so many milliseconds pass. */
  static String states(SmallController on, String events) {
    List<String> seen = new ArrayList<>();
    long now = 100;
    for (String event : events.split(" ")) {
      switch (event) {
        case "on", "off" -> on.set("hot", event.equals("on") ? 1 : 0);
        case "out", "back" -> on.set("alarms.a.out_of_service", event.equals("out") ? 1 : 0);
        case "quiet", "loud" -> on.set("quiet", event.equals("quiet") ? 1 : 0);
        case "ack" -> on.offer("alarms.a.acknowledge", 1);
        case "shelve" -> on.offer("alarms.a.shelve", 1);
        case "once" -> on.offer("alarms.a.shelve_once", 1);
        case "unshelve" -> on.offer("alarms.a.unshelve", 1);
        case "reset" -> on.offer("alarms.a.reset", 1);
        default -> now += Long.parseLong(event.substring(1)) - 100;
      }
      on.scanAt(now);
      now += 100;
      seen.add(state(on));
    }
    return String.join(" ", seen);
  }

  private static String state(SmallController on) {
    if (on.get("alarms.a.shelved") == 1) {
      return "G";
    }
    if (on.get("alarms.a.suppressed") == 1) {
      return "H";
    }
    if (on.get("alarms.a.out_of_service") == 1) {
      return "I";
    }
    boolean waits = on.get("alarms.a.unacknowledged") == 1;
    if (on.get("alarms.a.latched") == 1) {
      return waits ? "E" : "F";
    }
    return on.get("alarms.a.active") == 1 ? (waits ? "B" : "C") : waits ? "D" : "A";
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = ':',
      value = {
        "on ack off : B C A",
        "on off ack : B D A",
        "on off on ack off : B D B C A",
        "on ack off on : B C A B",
        "ack : A",
        "shelve on +60000 : G G B",
        "once on off : G G A",
        "once on +60000 : G G B",
        "on shelve unshelve : B G B",
        "shelve unshelve on : G A B",
        "on quiet loud off : B H B D",
        "on off quiet loud : B D H A",
        "out on back : I I B",
        "on ack out back : B C I B",
        "shelve out unshelve back : G G I A",
      })
  void withoutLatching(String events, String states) {
    assertEquals(states, states(alarm(", suppressed: quiet, shelve_for: T#60s"), events));
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = ':',
      value = {
        "on ack off reset : B C F A",
        "on off reset ack reset : B E E F A",
        "on off on ack off reset : B E B C F A",
        "on off ack on : B E F B",
        "on off shelve unshelve : B E G A",
      })
  void latching(String events, String states) {
    assertEquals(states, states(alarm(", latching: TRUE"), events));
  }

  @Test
  void returnsByItselfWhereNoAcknowledgementIsNeeded() {
    assertEquals("B A B", states(alarm(", acknowledge: FALSE"), "on off on"));
  }

  @Test
  void isUnacknowledgedAgainWhenItStandsForTooLong() {
    assertEquals("B C C B C", states(alarm(", re_alarm: T#10s"), "on ack +9900 +100 ack"));
  }

  @Test
  void aLimitHasItsDeadbandThenBothDelays() { // ALM-1
    SmallController on =
        SmallController.of(
            """
            operator: {pv: {type: INT}}
            alarms:
              high:
                high: {value: pv, limit: 80.0, deadband: 2.0}
                on_delay: T#300ms
                off_delay: T#200ms
            """);
    play(
        on,
        """
        pv                  79 80 81 79 80 82 79 77 79 77 77 80 77 77 77 77
        alarms.high.active   0  0  0  0  1  1  1  1  1  0  0  0  0  0  0  0
        """);
  }

  @Test
  void aLowLimitIsTheSameUpsideDown() {
    SmallController on =
        SmallController.of(
            """
            operator: {pv: {type: INT}}
            alarms:
              low: {low: {value: pv, limit: 20.0, deadband: 2.0}}
            """);
    play(
        on,
        """
        pv                 21 20 21 22 23 21 20
        alarms.low.active   0  1  1  1  0  0  1
        """);
  }

  @Test
  void aGroupIsAcknowledgedTogether() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}}
            alarms:
              a: {when: hot, group: Kiln, acknowledge: TRUE}
              b: {when: hot, group: kiln, acknowledge: TRUE}
              c: {when: hot, acknowledge: TRUE}
            """);
    on.set("hot", 1).scan();
    assertEquals("a,b,c", on.trueOf("alarms.*.unacknowledged"));
    momentarily(on, "alarms.groups.kiln.acknowledge");
    assertEquals("c", on.trueOf("alarms.*.unacknowledged"));
  }

  @Test
  void whatIsSetAsideIsNotAmongThoseShown() {
    SmallController on = alarm("");
    on.set("hot", 1).scan();
    assertEquals(1, on.get("alarms.active"));
    momentarily(on, "alarms.a.shelve");
    assertEquals(1, on.get("alarms.a.active"));
    assertEquals(0, on.get("alarms.active"));
    assertEquals(0, on.get("alarms.unacknowledged"));
    assertEquals(1, on.get("alarms.silent"));
  }
}
