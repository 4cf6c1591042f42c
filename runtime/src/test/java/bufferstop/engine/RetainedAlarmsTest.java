package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Alarms over a warm restart. */
class RetainedAlarmsTest {
  // Source: that alarm latches are not retained unless declared so [project choice]; the states are
  // those of ISA-18.2, alarm state-transition diagram [from memory, not re-read].

  private static SmallController alarm(String options) {
    return SmallController.of(
            """
            operator: {hot: {type: BOOL, retain: TRUE}, ack: {type: BOOL, retain: TRUE}}
            acknowledge: ack
            alarms:
              kept: {when: hot, retain: TRUE%s}
              plain: {when: hot%s}
            """
                .formatted(options, options))
        .scan();
  }

  private static String of(SmallController on, String what) {
    return on.trueOf("alarms.*." + what);
  }

  @Test
  void aLatchedAlarmStaysUntilItIsAcknowledgedAndReset() {
    SmallController on = alarm(", latching: TRUE");
    on.set("hot", 1).scan().set("hot", 0).scan();
    on.restart(false, 2).scan();
    assertEquals("kept", of(on, "latched"));
    assertEquals("kept", of(on, "unacknowledged"));
    on.offer("alarms.kept.acknowledge", 1);
    on.scan();
    on.restart(false, 2).scan();
    assertEquals("kept", of(on, "latched"));
    assertEquals("-", of(on, "unacknowledged"));
    on.offer("alarms.kept.reset", 1);
    on.scan();
    assertEquals("-", of(on, "latched"));
  }

  @Test
  void oneThatWasAcknowledgedIsNotRaisedAgain() {
    SmallController on = alarm("");
    on.set("hot", 1).scan().set("ack", 1).scan().set("ack", 0).scan();
    on.restart(false, 2).scan();
    assertEquals("kept,plain", of(on, "active"));
    assertEquals("plain", of(on, "unacknowledged"));
  }

  /** As with the reset of a trip, what is held over a start is no new press. */
  @Test
  void anAcknowledgementThatIsHeldOverARestartAcknowledgesNothing() {
    SmallController on = alarm(", latching: TRUE");
    on.set("hot", 1).scan().set("hot", 0).scan();
    on.set("ack", 1).restart(false, 2).scan();
    assertEquals("kept", of(on, "unacknowledged"));
    on.set("ack", 0).scan().set("ack", 1).scan();
    assertEquals("-", of(on, "unacknowledged"));
  }

  @Test
  void aShelfAndWhatIsOutOfServiceStayAndTheShelfsTimeGoesOn() {
    SmallController on = alarm(", shelve_for: T#10s");
    on.offer("alarms.kept.shelve", 1);
    on.scanAt(1000);
    on.offer("alarms.plain.shelve", 1);
    on.scanAt(5000);
    on.restart(false, 3000).scan();
    assertEquals("kept", of(on, "shelved"));
    on.scanAt(14_000); // 4 s before the restart, 6 s from its first scan at 8001
    assertEquals("kept", of(on, "shelved"));
    on.scan();
    assertEquals("-", of(on, "shelved"));
    on.set("alarms.kept.out_of_service", 1).set("alarms.plain.out_of_service", 1);
    on.scan().restart(false, 1).scan();
    assertEquals("kept", of(on, "out_of_service"));
  }

  @Test
  void aDelayThatRunsGoesOn() {
    SmallController on = alarm(", on_delay: T#1s");
    on.set("hot", 1).scan().scanAt(601);
    on.restart(false, 10).scan();
    on.scanAt(1000); // its first scan was at 612, with 600 ms passed
    assertEquals("-", of(on, "active"));
    on.scanAt(1012);
    assertEquals("kept", of(on, "active"));
  }
}
