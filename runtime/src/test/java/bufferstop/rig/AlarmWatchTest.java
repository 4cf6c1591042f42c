package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import bufferstop.scenario.AlarmSummary;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is told of alarms from scan to scan. */
class AlarmWatchTest {
  private final List<String> told = new ArrayList<>();
  private SmallController on;
  private AlarmWatch watch;

  private void bench(String options) {
    on =
        SmallController.of(
                """
                operator: {hot: {type: BOOL}, quiet: {type: BOOL}, ack: {type: BOOL}}
                acknowledge: ack
                alarms:
                  a: {when: hot%s}
                """
                    .formatted(options))
            .scan();
    Rig rig = on.rig();
    watch =
        new AlarmWatch(
            rig.project().controller().alarms(), rig.layout(), (at, text) -> told.add(text));
    watch.start(rig.engine().cells(), 0);
  }

  private void play(String events) {
    for (String event : events.split(" ")) {
      switch (event) {
        case "on", "off" -> on.set("hot", event.equals("on") ? 1 : 0);
        case "out", "back" -> on.set("alarms.a.out_of_service", event.equals("out") ? 1 : 0);
        case "quiet", "loud" -> on.set("quiet", event.equals("quiet") ? 1 : 0);
        default -> on.offer("alarms.a." + event, 1);
      }
      scan();
    }
  }

  private void scan() {
    on.scan();
    watch.observe(
        on.rig().engine().cells(), on.rig().engine().nowMicros(), on.rig().engine().scans() - 1);
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "'' | on acknowledge off | alarm a, alarm a is acknowledged, alarm a is gone",
        "'' | on off acknowledge | alarm a, alarm a is gone, alarm a is acknowledged",
        "', acknowledge: FALSE' | on off | alarm a, alarm a is gone",
        "', latching: TRUE' | on off acknowledge reset | alarm a, alarm a is gone and latched,"
            + " alarm a is acknowledged, alarm a is reset",
        "', latching: TRUE' | on off on | alarm a, alarm a is gone and latched, alarm a",
        "'' | on shelve unshelve | alarm a, alarm a is shelved, alarm a is shelved no more, alarm"
            + " a",
        "'' | shelve on off unshelve | alarm a is shelved, alarm a is shelved no more",
        "', suppressed: quiet' | on quiet off loud | alarm a, alarm a is suppressed,"
            + " alarm a is suppressed no more",
        "'' | on out back | alarm a, alarm a is out of service, alarm a is in service again, alarm"
            + " a",
      })
  void tellsWhatHappens(String options, String events, String lines) {
    bench(options);
    play(events);
    assertEquals(lines, String.join(", ", told));
  }

  @Test
  void oneThatComesAgainByItselfIsTold() {
    bench(", re_alarm: T#2ms");
    play("on acknowledge");
    scan();
    scan();
    assertEquals(List.of("alarm a", "alarm a is acknowledged", "alarm a comes again"), told);
  }

  @Test
  void onlyWhatIsShownCountsAndEventsHaveTheirScan() {
    bench("");
    play("on off shelve on off unshelve on");
    AlarmSummary summary = watch.summary(8000);
    assertEquals(List.of(new AlarmSummary.Count("a", 2, true, false, false)), summary.counts());
    assertEquals(new AlarmSummary.Event(1000, 1, "a", "comes"), summary.events().get(0));
    assertEquals(5, summary.events().size());
  }

  /** A controller that is switched off shows no alarm; that is no event of the alarm. */
  @Test
  void aRestartEndsWhatStoodWithoutAWord() {
    bench("");
    play("on");
    on.restart(false, 1);
    watch.start(on.rig().engine().cells(), 3000);
    assertEquals(List.of("alarm a"), told);
    assertEquals(
        List.of(new AlarmSummary.Count("a", 1, false, false, false)), watch.summary(3000).counts());
    on.set("hot", 1);
    scan();
    assertEquals(List.of("alarm a", "alarm a"), told);
  }

  @Test
  void theLastThousandEventsAreKept() {
    bench("");
    for (int i = 0; i < 600; i++) {
      play("on off");
    }
    AlarmSummary summary = watch.summary(2_000_000);
    assertEquals(1000, summary.events().size());
    assertEquals(200, summary.eventsLeftOut());
    assertEquals(1, summary.floods());
  }
}
