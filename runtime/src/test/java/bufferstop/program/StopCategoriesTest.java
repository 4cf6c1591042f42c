package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** The stop categories written as a project's own block; a simulation, no safety function. */
class StopCategoriesTest {
  // Source: IEC 60204-1, 9.2.2 [second-hand]; a reset restarts nothing: ISO 13850:2015, 4.1 [from
  // memory, not re-read]; the rows are those of the reference's check, motion told by standstill.

  private static SmallController drive(int category) {
    return SmallController.ofProject(
        """
        project: a drive that stops
        scan: T#1ms
        function_blocks:
          stopped_drive:
            inputs:
              category: {type: USINT}
              start: {type: BOOL}
              stop: {type: BOOL}
              reset: {type: BOOL}
              standstill: {type: BOOL}
              most: {type: TIME, text: Longest time with power}
            outputs:
              power: {type: BOOL}
              moves: {type: BOOL, text: Asked to move}
              latched: {type: BOOL}
            state:
              edge: {block: R_TRIG}
              begun: {block: R_TRIG}
              limit: {block: TON}
            body: |
              edge(CLK := reset);
              begun(CLK := start);
              IF stop THEN
                latched := TRUE;
              ELSIF edge.Q THEN
                latched := FALSE;
              END_IF;
              IF latched THEN
                moves := FALSE;
              ELSIF begun.Q AND NOT stop THEN
                moves := TRUE;
                power := TRUE;
              END_IF;
              limit(IN := latched AND power, PT := most);
              IF latched AND (category = 0 OR category = 1 AND (standstill OR limit.Q)) THEN
                power := FALSE;
              END_IF;
        controller:
          operator:
            start: {type: BOOL}
            stop: {type: BOOL}
            reset: {type: BOOL}
            still: {type: BOOL}
          blocks:
            d:
              block: stopped_drive
              category: USINT#%d
              start: start
              stop: stop
              reset: reset
              standstill: still
              most: T#2s
        """
            .formatted(category));
  }

  @Test
  void categoryNoughtTakesThePowerAwayAtOnce() {
    play(
        drive(0),
        """
        t        0 500 1000 1500 2000 2500
        start    1   0    0    0    0    1
        stop     0   0    1    0    0    0
        reset    0   0    0    0    1    0
        still    0   0    0    1    1    1
        d.power  1   1    0    0    0    1
        d.moves  1   1    0    0    0    1
        """);
  }

  @Test
  void categoryOneTakesItAwayAtStandstill() {
    play(
        drive(1),
        """
        t        0 1000 1500 2000 2500 3000
        start    1    0    0    0    0    1
        stop     0    1    1    0    0    0
        reset    0    0    0    0    1    0
        still    0    0    0    1    1    1
        d.power  1    1    1    0    0    1
        d.moves  1    0    0    0    0    1
        """);
  }

  @Test
  void categoryOneTakesItAwayAtTheLatestAfterItsLongestTime() {
    play(
        drive(1),
        """
        t        0 1000 2000 2999 3000 3500
        start    1    0    0    0    0    0
        stop     0    1    1    1    1    1
        still    0    0    0    0    0    0
        d.power  1    1    1    1    0    0
        """);
  }

  @Test
  void categoryTwoKeepsThePower() {
    play(
        drive(2),
        """
        t        0 1000 2000 4000 5000 6000
        start    1    0    0    0    0    1
        stop     0    1    1    0    0    0
        reset    0    0    0    0    1    0
        still    0    0    1    1    1    1
        d.power  1    1    1    1    1    1
        d.moves  1    0    0    0    0    1
        """);
  }
}
