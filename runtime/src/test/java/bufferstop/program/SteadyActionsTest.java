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
          blocks:
            down: {block: CTD, CD: p, LD: down.Q, PV: 5}
            both: {block: CTUD, CU: p, CD: d, R: down.Q, PV: 3}
          sequences:
            seq:
              abort: {when: both.QU, to: C}
              steps:
                A:
                  initial: TRUE
                  do: [L T#2ms l, D T#2ms d, P p, SD T#4ms sd, DS T#3ms ds, SL T#4ms sl]
                B: {}
                C: {do: [R l, R sd, R ds, R sl]}
              transitions:
                - {from: A, to: B, when: seq.A.T >= T#3ms}
                - {from: B, to: C, when: seq.B.T >= T#3ms}
                - {from: C, to: A, when: "TRUE"}
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

  @Test
  void aScanAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    pulses();
    threads.getCurrentThreadAllocatedBytes();
    long before = threads.getCurrentThreadAllocatedBytes();
    long seen = pulses();
    long allocated = threads.getCurrentThreadAllocatedBytes() - before;
    assertEquals(0, allocated, "bytes in " + SCANS + " scans");
    assertTrue(seen > 1000, "the chart went round " + seen + " times");
  }
}
