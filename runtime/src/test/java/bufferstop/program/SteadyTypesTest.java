package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.engine.SmallController;
import bufferstop.model.StringCells;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;

/** STRINGs, arrays, enumerations and bit strings that change in every scan. */
class SteadyTypesTest {
  private static final int SCANS = 20_000;
  private static final int BATCHES = 5;

  private final SmallController on =
      SmallController.of(
          """
          types:
            colour: [red, green, blue]
          internal:
            n: {type: INT}
            c: {type: colour}
            w: {type: WORD, initial: 16#8001}
            a: {type: "ARRAY[0..9] OF INT"}
            t: {type: "ARRAY[0..1] OF STRING[40]"}
            k: {type: INT}
          logic: |
            n := (n + 1) MOD 10;
            a[n] := a[9 - n] + 1;
            a[n] := a[n] MOD 100;
            w := ROL(w, n) XOR 16#1;
            CASE c OF red: c := green; green: c := blue; ELSE c := red; END_CASE;
            t[0] := CONCAT('batch ', INT_TO_STRING(a[n]), ' of ', t[1]);
            t[1] := MID(t[0], 5, 1);
            k := STRING_TO_INT(INT_TO_STRING(n)) + LEN(t[0]) + FIND(t[0], 'of');
            IF t[0] = 'batch 1' OR n > 10 THEN k := a[n + 20]; END_IF;
          """);

  private void scans() {
    for (int i = 0; i < SCANS; i++) {
      on.rig().engine().scan(0);
    }
  }

  /** What a scan allocates shows in every batch, what the virtual machine does by itself in few. */
  @Test
  void aScanAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    scans();
    threads.getCurrentThreadAllocatedBytes();
    long least = Long.MAX_VALUE;
    for (int batch = 0; batch < BATCHES; batch++) {
      long before = threads.getCurrentThreadAllocatedBytes();
      scans();
      least = Math.min(least, threads.getCurrentThreadAllocatedBytes() - before);
    }
    int text = on.rig().layout().field().find("t[0]").index();
    String seen = StringCells.unpack(on.rig().engine().cells(), text);
    assertTrue(seen.matches("batch \\d+ of batch"), seen);
    assertEquals(0, on.get("scan.errors"));
    assertTrue(least < SCANS, "at least " + least + " bytes in " + SCANS + " scans");
  }
}
