package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Alarms that do not latch. */
class AlarmsTest {
  // Source: ISA-18.2, alarm state-transition diagram, states A to D [from memory, not re-read].

  private static final String ONE =
      """
      operator: {hot: {type: BOOL}, ack: {type: BOOL}}
      acknowledge: ack
      alarms:
        a: {when: hot}
      """;

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = ':',
      value = {
        "on ack off : B C A",
        "on off ack : B D A",
        "on off on ack off : B D B C A",
        "on ack off on : B C A B",
        "ack : A",
        "on ack ack off : B C C A",
        "on off ack on : B D A B"
      })
  void goesFromStateToState(String events, String states) {
    SmallController on = SmallController.of(ONE).scan();
    List<String> seen = new ArrayList<>();
    for (String event : events.split(" ")) {
      switch (event) {
        case "ack" -> on.set("ack", 1).scan().set("ack", 0).scan();
        default -> on.set("hot", event.equals("on") ? 1 : 0).scan();
      }
      seen.add(state(on.get("alarms.a.active"), on.get("alarms.a.unacknowledged")));
    }
    assertEquals(states, String.join(" ", seen));
  }

  private static String state(long active, long unacknowledged) {
    return active == 1 ? (unacknowledged == 1 ? "B" : "C") : unacknowledged == 1 ? "D" : "A";
  }

  @Test
  void anAcknowledgementIsARisingEdge() {
    play(
        SmallController.of(ONE),
        """
        hot                      0 1 1 0 1 1 1
        ack                      1 1 1 0 0 1 1
        alarms.a.active          0 1 1 0 1 1 1
        alarms.a.unacknowledged  0 1 1 1 1 0 0
        """);
  }

  @Test
  void anAcknowledgementInTheScanOfTheAlarmDoesNotReachIt() {
    play(
        SmallController.of(ONE),
        """
        hot                      0 1 1
        ack                      0 1 0
        alarms.a.unacknowledged  0 1 1
        """);
  }

  @Test
  void anOnDelayMustBeLastedWithoutAGap() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}, ack: {type: BOOL}}
            acknowledge: ack
            alarms:
              a: {when: hot, on_delay: T#300ms}
            """);
    play(
        on,
        """
        t                        0 100 200 300 400 500 690 700 800
        hot                      1   1   0   0   1   1   1   1   0
        alarms.a.active          0   0   0   0   0   0   0   1   0
        alarms.a.unacknowledged  0   0   0   0   0   0   0   1   1
        """);
  }

  @Test
  void alarmsThatNeedNoAcknowledgementEndWithTheirCondition() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}}
            alarms:
              a: {when: hot}
            """);
    play(
        on,
        """
        hot                      0 1 1 0 1
        alarms.a.active          0 1 1 0 1
        alarms.a.unacknowledged  0 1 1 0 1
        """);
  }

  @Test
  void theSummarySaysWhetherAnyIsActiveAndAnyWaits() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}, low: {type: BOOL}, ack: {type: BOOL}}
            acknowledge: ack
            alarms:
              a: {when: hot}
              b: {when: low}
            """);
    play(
        on,
        """
        hot                    0 1 1 1 0 0
        low                    0 0 0 1 1 0
        ack                    0 0 1 0 0 1
        alarms.*.active        - a a a,b b -
        alarms.active          0 1 1 1 1 0
        alarms.unacknowledged  0 1 0 1 1 0
        """);
  }
}
