package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.rig.Rig;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Remote nodes in a long run. */
class SteadyNodesTest {
  private static final int SCANS = 20_000;
  private static final Position HERE = Position.ofFile("test");
  private static final String PROJECT =
      """
      project: Nodes
      scan: T#5ms
      controller:
        inputs:
          back: {type: BOOL, node: rack}
          kept: {type: BOOL, node: old_rack}
        outputs:
          q: {type: BOOL, node: rack}
          r: {type: BOOL, node: old_rack}
        internal:
          times: {type: DINT}
        logic: |
          q := NOT back;
          r := NOT kept;
          IF back THEN times := times + 1; END_IF;
      nodes:
        rack: {cycle: T#10ms, timeout: T#40ms}
        old_rack: {cycle: T#20ms, timeout: T#50ms, on_loss: hold}
      wiring:
        - {from: q, to: back, name: loop}
        - {from: r, to: kept, name: old_loop}
      """;

  private static final int REPEATS = 5;

  private static long allocated(Rig rig) {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    threads.getCurrentThreadAllocatedBytes();
    long before = threads.getCurrentThreadAllocatedBytes();
    for (int i = 0; i < SCANS; i++) {
      rig.engine().scan(0);
    }
    return threads.getCurrentThreadAllocatedBytes() - before;
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({"in order, true", "late, true", "lost, false"})
  void aScanAllocatesNothing(String mode, boolean turns) {
    SmallController controller = SmallController.ofProject(PROJECT);
    Rig rig = controller.rig();
    allocated(rig);
    if (!mode.equals("in order")) {
      Diagnostics problems = new Diagnostics();
      Fault.Target rack = new Fault.Target(Fault.Place.NODE, new Name("rack", HERE));
      Fault fault = new Fault(rack, new Name(mode, HERE), null, 0);
      rig.field().faults().prepare(fault, problems).act(rig.engine().cells());
    }
    allocated(rig);
    long before = controller.get("times");
    // what a scan allocates comes back every time; what the JVM does now and then, does not
    long least = LongStream.range(0, REPEATS).map(i -> allocated(rig)).min().getAsLong();
    assertEquals(0, least, "bytes in " + SCANS + " scans");
    assertEquals(turns, controller.get("times") > before, "what the loop does");
  }
}
