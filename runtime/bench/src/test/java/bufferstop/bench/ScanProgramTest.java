package bufferstop.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The two sides of the comparison do the same, or their times mean nothing. */
class ScanProgramTest {
  private static final int RUNGS = 200;

  @TempDir Path folder;

  @Test
  void theDeclaredControllerDoesWhatTheHandWrittenOneDoes() throws IOException {
    ScanProgram program = new ScanProgram(RUNGS, 1);
    Controller declared = Declared.load(program.project(), RUNGS, folder.resolve("project"));
    Controller byHand = ByHand.compile(program.java(), folder.resolve("java"));
    ScanBenchmark.Inputs inputs = new ScanBenchmark.Inputs();
    TreeSet<Integer> steps = new TreeSet<>();
    for (int scan = 0; scan < inputs.bits.length; scan++) {
      declared.scan(inputs.bits[scan], inputs.reals[scan], scan * 10_000L);
      byHand.scan(inputs.bits[scan], inputs.reals[scan], scan * 10_000L);
      assertEquals(byHand.step(), declared.step(), "step in scan " + scan);
      steps.add(byHand.step());
      for (int rung = 0; rung < RUNGS; rung++) {
        assertEquals(byHand.rung(rung), declared.rung(rung), "rung " + rung + ", scan " + scan);
      }
    }
    assertEquals(byHand.errors(), declared.errors());
    assertEquals(30, steps.size(), "a sequence that stands still shows nothing");
    assertTrue(declared.errors() == 0, "errors in a program that has none");
  }

  @Test
  void aScanAllocatesNothing() throws IOException {
    assertEquals(0, ScanBenchmark.allocated(100_000));
  }
}
