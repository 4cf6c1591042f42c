package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;

/** Every qualifier and counter in a chart that goes round and is aborted again and again. */
class SteadyActionsTest {
  private static final int SCANS = 20_000;
  private static final int BATCHES = 5;

  private final SmallController chart =
      SmallController.of(
          """
          internal:
            l: {type: BOOL}
            d: {type: BOOL}
            p: {type: BOOL}
            sd: {type: BOOL}
            ds: {type: BOOL}
            sl: {type: BOOL}
            turns: {type: LINT}
          blocks:
            down: {block: CTD, CD: p, LD: down.Q, PV: 5}
            both: {block: CTUD, CU: p, CD: d, R: down.Q, PV: 3}
          interlocks:
            guard:
              trip:
                two: {vote: 2, of: {a: l, b: d, c: sl}, differ_after: T#1ms, on_delay: T#9ms}
                one: {when: sd, bypass: {when: seq.A.X, at_most: T#2ms}}
              reset: p
              group: all
          sequences:
            seq:
              abort: {when: both.QU, to: C}
              hold: {when: p}
              manual: {when: l, next: d}
              actions: {count: "turns := turns + 1;"}
              steps:
                A:
                  initial: TRUE
                  do: [L T#2ms l, D T#2ms d, P p, SD T#4ms sd, DS T#3ms ds, SL T#4ms sl]
                B: {run: inner, do: [P1 count, P0 count]}
                C: {do: [R l, R sd, R ds, R sl]}
              transitions:
                - {from: A, to: B, when: seq.A.T >= T#3ms}
                - {from: B, to: C, when: seq.B.T >= T#3ms}
                - {from: C, to: A, when: "TRUE"}
            inner:
              steps: {X: {initial: TRUE}, Y: {final: TRUE}}
              transitions: [{from: X, to: Y, when: p}]
          """);

  private final int pulse = chart.rig().layout().controller().find("p").index();

  private long pulses() {
    long seen = 0;
    for (int i = 0; i < SCANS; i++) {
      chart.rig().engine().scan(0);
      seen += chart.rig().engine().cells()[pulse];
    }
    return seen;
  }

  /** What a scan allocates shows in every batch, what the virtual machine does by itself in few. */
  @Test
  void aScanAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    pulses();
    threads.getCurrentThreadAllocatedBytes();
    long least = Long.MAX_VALUE;
    for (int batch = 0; batch < BATCHES; batch++) {
      long before = threads.getCurrentThreadAllocatedBytes();
      long seen = pulses();
      least = Math.min(least, threads.getCurrentThreadAllocatedBytes() - before);
      assertTrue(seen > 1000, "the chart went round " + seen + " times");
    }
    assertEquals(0, least, "bytes in " + SCANS + " scans");
  }
}
