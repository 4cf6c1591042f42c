package bufferstop.rig;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import bufferstop.report.MatrixText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The matrix, and that the controller does what it says. */
class CauseAndEffectTest {
  // Source: check C&E and rule I9 [common practice, no source]: every mark is seen to act, and
  // every cause is seen not to act where there is none: m causes times n effects.

  private static final String PUMPING =
      """
      operator:
        lt1: {type: BOOL}
        lt2a: {type: BOOL}
        lt2b: {type: BOOL}
        lt2c: {type: BOOL}
        motor: {type: BOOL}
        reset: {type: BOOL}
        key: {type: BOOL}
      outputs:
        pump: {type: BOOL}
        valve: {type: BOOL}
      interlocks:
        pump_stop:
          trip:
            level_high: {when: lt1, text: "LT-1 high-high", bypass: {when: key, at_most: T#10m}}
            level_low: {vote: 2, of: {a: lt2a, b: lt2b, c: lt2c}, text: "LT-2 low"}
            motor_fault: motor
          reset: reset
          makes_safe: [pump]
          text: Pump stop
        valve_shut:
          trip:
            level_high: lt1
            motor_fault: {when: motor, on_delay: T#2s}
          reset: reset
          makes_safe: [valve]
          text: Valve shut
        notice:
          trip:
            level_high: lt1
            level_low: lt2a OR lt2b OR lt2c
            motor_fault: motor
          reset: reset
          text: Notice
      alarms:
        any: {when: notice.tripped}
      logic: |
        pump := TRUE;
        valve := TRUE;
      """;

  private static final Map<String, List<String>> SIGNALS =
      Map.of(
          "level_high", List.of("lt1"),
          "level_low", List.of("lt2a", "lt2c"),
          "motor_fault", List.of("motor"));

  @Test
  void printsARowForEachCauseAndAColumnForEachEffect() {
    CauseAndEffect matrix = CauseAndEffect.of(SmallController.of(PUMPING).rig());
    assertEquals(
        """
        interlock   kind  cause        text            vote  delay  bypass               reset  pump  valve  alarms.any
        pump_stop   trip  level_high   LT-1 high-high               key, at most T#10m   reset  X
        pump_stop   trip  level_low    LT-2 low        2oo3                              reset  X
        pump_stop   trip  motor_fault  Pump stop                                         reset  X
        valve_shut  trip  level_high   Valve shut                                        reset        X
        valve_shut  trip  motor_fault  Valve shut            T#2s                        reset        X
        notice      trip  level_high   Notice                                            reset               X
        notice      trip  level_low    Notice                                            reset               X
        notice      trip  motor_fault  Notice                                            reset               X
        """
            .replaceAll(" +", " "),
        new MatrixText(matrix)
            .table()
            .replace(CauseAndEffect.LEGEND + "\n", "")
            .replaceAll(" +", " "));
  }

  @Test
  void everyCauseAloneDoesWhatIsMarkedAndNothingElse() {
    CauseAndEffect matrix = CauseAndEffect.of(SmallController.of(PUMPING).rig());
    Map<String, List<String>> marked = marked(matrix);
    assertEquals(SIGNALS.keySet(), marked.keySet());
    int observations = 0;
    for (String cause : marked.keySet()) {
      SmallController on = SmallController.of(PUMPING).scanAt(0);
      SIGNALS.get(cause).forEach(signal -> on.set(signal, 1));
      on.scanAt(100).scanAt(2100); // the longest delay of the matrix has passed
      for (String effect : matrix.effects()) {
        assertEquals(marked.get(cause).contains(effect), acts(on, effect), cause + ", " + effect);
        observations++;
      }
    }
    assertEquals(3 * 3, observations);
  }

  /** The effects of each cause, whatever interlock they come through. */
  private static Map<String, List<String>> marked(CauseAndEffect matrix) {
    Map<String, List<String>> marked = new LinkedHashMap<>();
    for (CauseAndEffect.Row row : matrix.rows()) {
      List<String> effects = marked.computeIfAbsent(row.cause(), c -> new ArrayList<>());
      for (int i = 0; i < matrix.effects().size(); i++) {
        if (!row.marks().get(i).isEmpty()) {
          effects.add(matrix.effects().get(i));
        }
      }
    }
    return marked;
  }

  private static boolean acts(SmallController on, String effect) {
    return effect.startsWith("alarms.") ? on.get(effect + ".active") == 1 : on.get(effect) == 0;
  }

  @Test
  void oneChannelOfTheVoteAloneOnlyRaisesTheAlarm() {
    play(
        SmallController.of(PUMPING),
        """
        t                  0 100 200
        lt2a               0   1   1
        lt2c               0   0   1
        pump               1   1   0
        valve              1   1   1
        alarms.any.active  0   1   1
        """);
  }

  @Test
  void aMotorFaultThatGoesBeforeItsDelayLeavesTheValveOpen() {
    play(
        SmallController.of(PUMPING),
        """
        t                  0 100 1999 2000 4000
        motor              0   1    1    0    0
        pump               1   0    0    0    0
        valve              1   1    1    1    1
        alarms.any.active  0   1    1    1    1
        """);
  }

  @Test
  void aMotorFaultOfItsWholeDelayShutsTheValveThen() {
    play(
        SmallController.of(PUMPING),
        """
        t                  0 100 2099 2100 2200
        motor              0   1    1    1    0
        pump               1   0    0    0    0
        valve              1   1    1    0    0
        alarms.any.active  0   1    1    1    1
        """);
  }

  private static final String DRIVE =
      """
      operator: {p: {type: BOOL}, i: {type: BOOL}, t: {type: BOOL}, reset: {type: BOOL}}
      outputs: {run: {type: BOOL}, lamp: {type: BOOL}}
      interlocks:
        permit: {permissive: {here: p, there: i}}
        guard: {interlock: i, makes_safe: [run]}
        stop: {trip: {one: t, two: NOT i}, reset: reset, makes_safe: [run], text: "a|b, c"}
      sequences:
        drive:
          abort: {when: stop.tripped, to: idle}
          hold: {when: NOT guard.ok}
          steps: {idle: {initial: TRUE}, going: {do: [N run, N lamp]}}
          transitions:
            - {from: idle, to: going, when: permit.ok AND NOT stop.first.two}
            - {from: going, to: idle, when: NOT permit.ok}
      alarms:
        first_two: {when: stop.first.two}
        not_ready: {when: NOT permit.ok}
      """;

  @Test
  void marksPermissivesAbortsHoldsAndSingleCauses() {
    MatrixText text = new MatrixText(CauseAndEffect.of(SmallController.of(DRIVE).rig()));
    assertEquals(
        """
        interlock,kind,cause,text,vote,delay,bypass,reset,run,alarms.first_two,alarms.not_ready,drive
        permit,permissive,here,,,,,,,,P,P
        permit,permissive,there,,,,,,,,P,P
        guard,interlock,cause,,,,,,I,,,H
        stop,trip,one,"a|b, c",,,,reset,X,,,A
        stop,trip,two,"a|b, c",,,,reset,X,X,,X A
        """
            .replace("\n", "\r\n"),
        text.csv());
  }

  @Test
  void aMarkdownTableHasItsLegendBelow() {
    String text = new MatrixText(CauseAndEffect.of(SmallController.of(DRIVE).rig())).markdown();
    List<String> lines = text.lines().collect(Collectors.toList());
    assertEquals("| stop | trip | one | a\\|b, c | reset | X |  |  | A |", lines.get(5));
    assertEquals("", lines.get(7));
    assertTrue(lines.get(8).startsWith("X trip, I interlock, P permissive, A abort"), text);
  }
}
