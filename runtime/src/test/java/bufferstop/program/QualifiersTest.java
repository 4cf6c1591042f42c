package bufferstop.program;

import static bufferstop.engine.ScanTable.play;

import bufferstop.engine.SmallController;
import org.junit.jupiter.api.Test;

/** What each qualifier does to its target. */
class QualifiersTest {
  // Source: names IEC 61131-3:2003, Table 45 [re-read]; behaviour Figure 15 [from memory, not
  // re-read]. Step X is active while x is TRUE, step Z resets while r is TRUE: two branches side by
  // side. One scan leads into them, so times are 100 ms later than in the reference's tables.

  private static SmallController branches() {
    return SmallController.of(
            """
            operator: {x: {type: BOOL}, r: {type: BOOL}}
            internal:
              n: {type: BOOL}
              s: {type: BOOL}
              l: {type: BOOL}
              d: {type: BOOL}
              p: {type: BOOL}
              sd: {type: BOOL}
              ds: {type: BOOL}
              sl: {type: BOOL}
            sequences:
              seq:
                steps:
                  begin: {initial: TRUE}
                  W: {}
                  X:
                    do:
                      - N n
                      - S s
                      - L T#300ms l
                      - D T#300ms d
                      - P p
                      - SD T#300ms sd
                      - DS T#300ms ds
                      - SL T#300ms sl
                  Y: {}
                  Z: {do: [R n, R s, R l, R d, R p, R sd, R ds, R sl]}
                transitions:
                  - {from: begin, to: [W, Y], when: "TRUE"}
                  - {from: W, to: X, when: x}
                  - {from: X, to: W, when: NOT x}
                  - {from: Y, to: Z, when: r}
                  - {from: Z, to: Y, when: NOT r}
            """)
        .scan();
  }

  @Test
  void aStepThatOutlastsTheTime() { // ACT-1, rows Q
    play(
        branches(),
        """
        t   100 200 300 400 500 600 700 800 900 1000 1100
        x     0   1   1   1   1   1   1   0   0    0    0
        r     0   0   0   0   0   0   0   0   0    1    0
        n     0   1   1   1   1   1   1   0   0    0    0
        s     0   1   1   1   1   1   1   1   1    0    0
        l     0   1   1   1   0   0   0   0   0    0    0
        d     0   0   0   0   1   1   1   0   0    0    0
        p     0   1   0   0   0   0   0   0   0    0    0
        sd    0   0   0   0   1   1   1   1   1    0    0
        ds    0   0   0   0   1   1   1   1   1    0    0
        sl    0   1   1   1   0   0   0   0   0    0    0
        """);
  }

  @Test
  void aStepShorterThanTheTime() { // ACT-2, rows Q
    play(
        branches(),
        """
        t   100 200 300 400 500 600 700 800 900 1000 1100
        x     0   1   1   0   0   0   0   0   0    0    0
        r     0   0   0   0   0   0   0   0   0    1    0
        n     0   1   1   0   0   0   0   0   0    0    0
        s     0   1   1   1   1   1   1   1   1    0    0
        l     0   1   1   0   0   0   0   0   0    0    0
        d     0   0   0   0   0   0   0   0   0    0    0
        p     0   1   0   0   0   0   0   0   0    0    0
        sd    0   0   0   0   1   1   1   1   1    0    0
        ds    0   0   0   0   0   0   0   0   0    0    0
        sl    0   1   1   1   0   0   0   0   0    0    0
        """);
  }

  @Test
  void aResetBeforeTheTimeHasPassed() { // ACT-3
    play(
        branches(),
        """
        t   100 200 300 400 500 600 700 800 900 1000 1100
        x     0   1   1   0   0   0   0   0   0    0    0
        r     0   0   0   1   0   0   0   0   0    0    0
        s     0   1   1   0   0   0   0   0   0    0    0
        sd    0   0   0   0   0   0   0   0   0    0    0
        ds    0   0   0   0   0   0   0   0   0    0    0
        sl    0   1   1   0   0   0   0   0   0    0    0
        """);
  }

  @Test
  void resetWinsOverStoredAndNonStoredInItsScanOnly() { // ACT-4 and ACT-5
    play(
        branches(),
        """
        t  100 200 300 400 500
        x    0   1   1   1   0
        r    0   0   1   0   0
        s    0   1   0   1   1
        n    0   1   0   1   0
        """);
  }

  @Test
  void resetWinsOverTimesAndPulsesOfAStepThatGoesOn() { // rule A5, and ACT-4 for what is stored
    play(
        branches(),
        """
        t   100 200 300 400 500 600 700 800 900 1000
        x     0   1   1   1   1   1   1   1   1    1
        r     0   1   0   0   0   1   0   0   0    0
        l     0   0   1   1   0   0   0   0   0    0
        d     0   0   0   0   1   0   1   1   1    1
        p     0   0   0   0   0   0   0   0   0    0
        sd    0   0   0   0   0   0   0   0   0    1
        ds    0   0   0   0   1   0   1   1   1    1
        sl    0   0   1   1   1   0   1   1   1    0
        """);
  }

  @Test
  void aStoredAndLimitedOneThatRanOutStartsAgainOnlyAfterAReset() { // rule A8
    play(
        branches(),
        """
        t   100 200 300 400 500 600 700 800 900 1000 1100
        x     0   1   0   0   0   1   0   0   0    1    0
        r     0   0   0   0   0   0   0   1   0    0    0
        sl    0   1   1   1   0   0   0   0   0    1    1
        """);
  }

  @Test
  void whatIsNotStoredBeginsAnewWithItsStep() {
    play(
        branches(),
        """
        t  100 200 300 400 500 600 700 800 900
        x    0   1   1   0   1   1   1   1   1
        l    0   1   1   0   1   1   1   0   0
        d    0   0   0   0   0   0   0   1   1
        p    0   1   0   0   1   0   0   0   0
        """);
  }

  @Test
  void timesCountFromTheScanOfEntryAndEndInTheFirstScanAtOrAfter() { // Z2, uneven scans
    play(
        branches(),
        """
        t   110 130 330 429 430 431 900
        x     0   1   1   1   1   1   1
        l     0   1   1   1   0   0   0
        d     0   0   0   0   1   1   1
        sd    0   0   0   0   1   1   1
        ds    0   0   0   0   1   1   1
        sl    0   1   1   1   0   0   0
        """);
  }

  private static SmallController fromTheBeginning() {
    return SmallController.of(
        """
        operator: {again: {type: BOOL}, go: {type: BOOL}}
        internal: {pa: {type: BOOL}, pb: {type: BOOL}, l: {type: BOOL}, d: {type: BOOL}}
        sequences:
          seq:
            steps:
              A: {initial: TRUE, do: [P pa, L T#200ms l, D T#200ms d]}
              B: {do: [P pb]}
            transitions:
              - {from: A, to: A, when: again}
              - {from: A, to: B, when: go}
        """);
  }

  @Test
  void theInitialStepIsNoPulseAndItsTimesCountFromTheFirstScan() { // rule A10
    play(
        fromTheBeginning(),
        """
        t   0 100 200 300
        pa  0   0   0   0
        pb  0   0   0   0
        l   1   1   0   0
        d   0   0   1   1
        """);
  }

  @Test
  void aStepEnteredInTheFirstScanIsAPulse() {
    play(
        fromTheBeginning(),
        """
        go  1 0 0
        pa  0 0 0
        pb  1 0 0
        """);
  }

  @Test
  void aStepThatLeadsToItselfBeginsItsActionsAnew() { // rule S5 [project choice]
    play(
        fromTheBeginning(),
        """
        t      0 100 200 300 400 500 600
        again  0   0   0   1   0   0   0
        pa     0   0   0   1   0   0   0
        l      1   1   0   1   1   0   0
        d      0   0   1   0   0   1   1
        """);
  }
}
