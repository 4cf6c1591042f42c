package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;

/** Functions in functions, blocks in blocks, calls from the logic: what a scan allocates. */
class SteadyLibraryTest {
  private static final int SCANS = 20_000;
  private static final int BATCHES = 5;

  private final SmallController pumps =
      SmallController.ofProject(
          """
          project: small
          scan: T#1ms
          functions:
            near: {inputs: {x: {type: INT}, y: {type: INT}}, returns: INT, body: near := x - y;}
            size: {inputs: {x: {type: INT}}, returns: INT, body: "size := ABS(near(x, near(x, x)));"}
            label:
              inputs: {t: {type: "STRING[6]"}, a: {type: "ARRAY[1..3] OF INT"}}
              returns: STRING[9]
              locals: {was: {type: "STRING[6]", initial: n}}
              body: label := CONCAT(was, t, INT_TO_STRING(a[2]));
          function_blocks:
            blink:
              inputs: {half: {type: TIME}}
              outputs: {q: {type: BOOL}, n: {type: INT}}
              state: {t: {block: TON}, rise: {block: R_TRIG}, k: {type: INT}}
              body: |
                t(IN := NOT t.Q, PT := half);
                IF t.Q THEN q := NOT q; END_IF;
                rise(CLK := q);
                FOR k := 1 TO 5 DO
                  IF k = 3 THEN CONTINUE; END_IF;
                  IF NOT rise.Q THEN RETURN; END_IF;
                END_FOR;
                n := size(n + 1);
                IF n > 100 THEN n := 1 / size(0); END_IF;
            both:
              outputs: {n: {type: INT}}
              state: {a: {block: blink}, b: {block: blink}}
              body: |
                a(half := T#2ms);
                b(half := T#3ms);
                n := size(a.n - b.n);
          controller:
            internal:
              pulses: {type: INT}
              on: {type: BOOL}
              text: {type: "STRING[20]"}
              three: {type: "ARRAY[0..2] OF INT"}
            blocks: {pair: {block: both}, single: {block: blink}}
            logic: |
              single(half := T#4ms, n => pulses, q => on);
              three[1] := pulses;
              text := CONCAT(label('=', three), label('/', three));
          """);

  private final int on = pumps.rig().layout().controller().find("on").index();

  private long lit() {
    long seen = 0;
    for (int i = 0; i < SCANS; i++) {
      pumps.rig().engine().scan(0);
      seen += pumps.rig().engine().cells()[on];
    }
    return seen;
  }

  /** What a scan allocates shows in every batch, what the virtual machine does by itself in few. */
  @Test
  void aScanAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    lit();
    threads.getCurrentThreadAllocatedBytes();
    long least = Long.MAX_VALUE;
    for (int batch = 0; batch < BATCHES; batch++) {
      long before = threads.getCurrentThreadAllocatedBytes();
      long seen = lit();
      least = Math.min(least, threads.getCurrentThreadAllocatedBytes() - before);
      assertTrue(seen > 1000, "lit in " + seen + " scans");
    }
    assertEquals(0, least, "bytes in " + SCANS + " scans");
    assertTrue(pumps.get("scan.errors") > 0, "no error was met");
  }
}
