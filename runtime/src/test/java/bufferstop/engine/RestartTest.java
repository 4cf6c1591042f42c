package bufferstop.engine;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a controller knows after it was off: cold, warm, and warm with what is retained. */
class RestartTest {
  // Source: IEC 61131-3:2003, 2.4.2, rules 1 to 4 [re-read]; that steps, timers, edges and alarm
  // latches begin anew unless declared otherwise, that forces end, that sequences begin at their
  // initial step [project choice]; that no bypass is on after a start [common practice, no source].

  @ParameterizedTest(name = "cold {0}: n {1}, m {2}, plain {3}, b {4}")
  @CsvSource({"true, 5, 0, 5, 0", "false, 42, 42, 5, 0"})
  void valuesAfterARestart(boolean cold, long n, long m, long plain, long b) {
    SmallController on =
        SmallController.of(
            """
            operator:
              n: {type: INT, initial: 5, retain: TRUE}
              plain: {type: INT, initial: 5}
            internal:
              m: {type: INT, retain: TRUE}
              b: {type: BOOL}
            """);
    on.scan().set("n", 42).set("m", 42).set("plain", 42).set("b", 1).scan();
    on.restart(cold, 3);
    assertEquals(n, on.get("n"));
    assertEquals(m, on.get("m"));
    assertEquals(plain, on.get("plain"));
    assertEquals(b, on.get("b"));
  }

  @Test
  void everyTypeIsRetainedInAllItsCells() {
    String text =
        """
        types: {mode: [off, hand, automatic]}
        operator:
          wanted: {type: mode, retain: TRUE}
          label: {type: "STRING[20]", retain: TRUE}
          amount: {type: "ARRAY[1..3] OF REAL", retain: TRUE}
          span: {type: TIME, retain: TRUE}
          flags: {type: LWORD, retain: TRUE}
        """;
    SmallController on = SmallController.of(text).scan();
    long[] cells = on.rig().engine().cells();
    int first = on.symbol("label").index();
    on.set("wanted", 2).set("span", 1500).set("flags", -2).set("amount[3]", 7);
    for (int i = 0; i < on.symbol("label").cells(); i++) {
      cells[first + i] = i + 1;
    }
    on.restart(false, 1).scan();
    assertEquals(2, on.get("wanted"));
    assertEquals(1500, on.get("span"));
    assertEquals(-2, on.get("flags"));
    assertEquals(7, on.get("amount[3]"));
    for (int i = 0; i < on.symbol("label").cells(); i++) {
      assertEquals(i + 1, cells[first + i], "cell " + i);
    }
  }

  @Test
  void theClockAndTheFirstScanBeginAnew() {
    SmallController on = SmallController.of("operator: {a: {type: BOOL}}");
    play(
        on,
        """
        a           0 0 0
        scan.first  1 0 0
        scan.count  0 1 2
        """);
    on.restart(false, 5);
    on.scan();
    assertEquals(1, on.get("scan.first"));
    assertEquals(0, on.get("scan.count"));
    assertEquals(0, on.get("scan.time"));
    on.scan();
    assertEquals(0, on.get("scan.first"));
    assertEquals(1, on.get("scan.time"));
  }

  @Test
  void aSequenceBeginsAtItsInitialStepWithItsTimeAtZero() {
    SmallController on =
        SmallController.of(
            """
            operator: {go: {type: BOOL}}
            outputs: {motor: {type: BOOL}}
            sequences:
              s:
                steps: {idle: {initial: TRUE}, run: {do: [N motor]}}
                transitions: [{from: idle, to: run, when: go}, {from: run, to: idle, when: NOT go}]
            """);
    on.set("go", 1).scan().scanAt(500);
    assertEquals(1, on.get("s.run.X"));
    assertEquals(1, on.get("motor"));
    on.restart(false, 1);
    assertEquals(0, on.get("motor"));
    assertEquals(1, on.get("s.idle.X"));
    assertEquals(0, on.get("s.run.X"));
    on.scan().scan();
    assertEquals(1, on.get("s.idle.T"));
  }

  @Test
  void whileItIsOffItKnowsNothingAndItsOutputsAreSafe() {
    SmallController on =
        SmallController.of(
            """
            operator: {level: {type: INT, initial: 3, retain: TRUE}}
            outputs: {brake: {type: BOOL, safe: TRUE}, motor: {type: BOOL}}
            logic: |
              brake := FALSE;
              motor := TRUE;
            """);
    on.scan();
    assertEquals(0, on.get("brake"));
    on.rig().engine().switchOff();
    on.rig().engine().scan(0);
    assertEquals(1, on.get("brake"));
    assertEquals(0, on.get("motor"));
    assertEquals(0, on.get("level"));
    assertEquals(0, on.get("scan.count"));
  }

  @Test
  void aWriteToAControllerThatIsOffIsLost() {
    SmallController on = SmallController.of("operator: {level: {type: INT}}");
    on.scan();
    on.rig().engine().switchOff();
    on.offer("level", 9);
    on.rig().engine().scan(0);
    on.rig().engine().switchOn(cells -> {});
    on.rig().engine().scan(0);
    assertEquals(0, on.get("level"));
  }

  @Test
  void forcesDoNotSurvive() {
    SmallController on =
        SmallController.of("inputs: {a: {type: BOOL}}\noutputs: {b: {type: BOOL}}");
    on.force("a", 1).force("b", 1).scan();
    assertEquals(1, on.get("b"));
    assertEquals(2, on.get("scan.forces"));
    on.restart(false, 1).scan();
    assertEquals(0, on.get("a"));
    assertEquals(0, on.get("b"));
    assertEquals(0, on.get("scan.forces"));
  }

  @Test
  void noBypassIsOnAfterARestartThoughItsKeyIs() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}, key: {type: BOOL, retain: TRUE}, reset: {type: BOOL}}
            interlocks:
              t:
                trip: {heat: {when: hot, bypass: {when: key, at_most: T#1h}}}
                reset: reset
                retain: TRUE
            """);
    on.scan().set("key", 1).set("hot", 1).scan();
    assertEquals(1, on.get("t.heat.bypassed"));
    on.restart(false, 1).set("hot", 1).scan();
    assertEquals(1, on.get("key"));
    assertEquals(0, on.get("t.heat.bypassed"));
    assertEquals(1, on.get("t.tripped"));
  }

  @Test
  void aTripIsForgottenUnlessItIsRetained() {
    String trips =
        """
        operator: {hot: {type: BOOL}, reset: {type: BOOL, retain: TRUE}}
        interlocks:
          plain: {trip: hot, reset: reset}
          kept: {trip: {heat: hot, other: FALSE}, reset: reset, retain: TRUE}
        """;
    SmallController on = SmallController.of(trips).scan();
    on.set("hot", 1).scan();
    on.set("hot", 0).scan();
    on.restart(false, 1).scan();
    assertEquals(0, on.get("plain.tripped"));
    assertEquals(1, on.get("kept.tripped"));
    assertEquals(1, on.get("kept.first.heat"));
    assertEquals(-1, on.get("kept.first_time"), "one scan before the last, which was at 0");
    on.set("reset", 1).scan();
    assertEquals(0, on.get("kept.tripped"));
  }

  /** Reset acts on its rising edge; one that is held over a start has none. */
  @Test
  void aResetThatIsHeldOverARestartResetsNothing() {
    SmallController on =
        SmallController.of(
            """
            operator: {hot: {type: BOOL}, reset: {type: BOOL, retain: TRUE}}
            interlocks: {t: {trip: hot, reset: reset, retain: TRUE}}
            """);
    on.set("hot", 1).scan().set("hot", 0).scan();
    on.set("reset", 1).restart(false, 1).scan();
    assertEquals(1, on.get("t.tripped"));
    on.set("reset", 0).scan().set("reset", 1).scan();
    assertEquals(0, on.get("t.tripped"));
  }

  @Test
  void aCounterCountsOnAndAnEdgeIsNoNewOne() {
    SmallController on =
        SmallController.of(
            """
            operator: {pulse: {type: BOOL}}
            blocks:
              kept: {block: CTU, CU: pulse, PV: 10, retain: TRUE}
              plain: {block: CTU, CU: pulse, PV: 10}
            """);
    play(
        on,
        """
        pulse    0 1 0 1 0 1
        kept.CV  0 1 1 2 2 3
        """);
    on.restart(false, 2).set("pulse", 1).scan();
    assertEquals(3, on.get("kept.CV"), "the pulse was there before");
    on.restart(true, 2).scan();
    assertEquals(0, on.get("kept.CV"));
    assertEquals(0, on.get("plain.CV"));
  }

  @Test
  void aTimerGoesOnAsIfNoTimeHadPassed() {
    SmallController on =
        SmallController.of(
            """
            operator: {go: {type: BOOL, retain: TRUE}}
            blocks:
              kept: {block: TON, IN: go, PT: T#1s, retain: TRUE}
              plain: {block: TON, IN: go, PT: T#1s}
              hours: {block: ON_TIME_COUNTER, IN: go, retain: TRUE}
            """);
    on.set("go", 1).scan().scanAt(600);
    assertEquals(600, on.get("kept.ET"));
    on.restart(false, 5000).scan();
    assertEquals(600, on.get("kept.ET"));
    assertEquals(600, on.get("hours.ET"));
    assertEquals(0, on.get("plain.ET"));
    on.scanAt(6000);
    assertEquals(999, on.get("kept.ET"), "its first scan was at 5601");
    on.scan();
    assertEquals(1, on.get("kept.Q"));
    assertEquals(0, on.get("plain.Q"));
    assertEquals(1000, on.get("hours.ET"));
  }

  @Test
  void aBlockOfAUserIsRetainedWithTheBlocksInIt() {
    SmallController on =
        SmallController.ofProject(
            """
            project: small
            scan: T#1ms
            function_blocks:
              worn:
                inputs: {run: {type: BOOL}}
                outputs: {long: {type: BOOL}}
                state: {timer: {block: TON}, times: {type: UINT}}
                body: |
                  timer(IN := run, PT := T#1s);
                  long := timer.Q;
            controller:
              operator: {go: {type: BOOL, retain: TRUE}}
              blocks: {pump: {block: worn, run: go, retain: TRUE}}
            """);
    on.set("go", 1).scan().scanAt(700);
    on.restart(false, 100).scan();
    on.scanAt(1100); // its first scan was at 801, with 700 ms passed
    assertEquals(0, on.get("pump.long"));
    on.scan();
    assertEquals(1, on.get("pump.long"));
  }
}
