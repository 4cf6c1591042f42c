package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.List;
import org.junit.jupiter.api.Test;

class ExpressionsTest {
  private final Cells cells = Cells.ofEveryType().with(Type.BOOL, "haul.to_pit.X");

  @Test
  void findNamesInAnyCaseAndOnSeveralDots() {
    cells.set("haul.to_pit.X", 1);
    assertTrue(cells.read("HAUL.To_Pit.x").truth(cells.cells));
  }

  @Test
  void listWhatTheyReadOnceInOrderOfFirstUse() {
    List<Symbol> reads = cells.read("i2 > i AND (i2 = 3 OR b)").reads();
    assertEquals(List.of("i2", "i", "b"), reads.stream().map(Symbol::name).toList());
  }

  @Test
  void keepTheTextOfEveryPart() {
    Expression whole = cells.read("b AND  (i < 3)");
    assertEquals("b AND  (i < 3)", whole.source().value());
    Structure.And and = assertInstanceOf(Structure.And.class, whole.structure());
    assertEquals("i < 3", and.parts().get(1).source().value());
    assertEquals(9, and.parts().get(1).source().whole().column());
  }

  @Test
  void showTheirStructure() {
    Structure.Or or =
        assertInstanceOf(Structure.Or.class, cells.read("b OR NOT b OR r > 1.5").structure());
    assertEquals(3, or.parts().size());
    assertInstanceOf(Structure.Leaf.class, or.parts().get(0).structure());
    assertInstanceOf(Structure.Not.class, or.parts().get(1).structure());
    Structure.Comparison comparison =
        assertInstanceOf(Structure.Comparison.class, or.parts().get(2).structure());
    assertEquals(">", comparison.operator());
    assertEquals(1.5, comparison.right().real(cells.cells));
    for (String leaf : List.of("b XOR b2", "b = b2", "TRUE", "SEL(b, b, b2)")) {
      assertInstanceOf(Structure.Leaf.class, cells.read(leaf).structure(), leaf);
    }
  }

  @Test
  void mayBeNestedDeeply() {
    assertEquals("1", cells.value("MIN(".repeat(80) + "1" + ", 2)".repeat(80)));
    assertEquals("1", cells.value("SEL(FALSE, ".repeat(80) + "1" + ", 2)".repeat(80)));
    assertEquals("201", cells.value("1" + " + 1".repeat(200)));
    assertEquals("TRUE", cells.value("(".repeat(100) + "TRUE" + ")".repeat(100)));
  }

  @Test
  void allocateNothingWhileEvaluating() {
    Expression read =
        cells.read(
            "LIMIT(0.0, SQRT(ABS(lr)) * 2.0, 10.0) > 3.0 AND MUX(i, b, b2)"
                + " OR REAL_TO_INT(r) < 5 / i2 AND t * 1.5 > T#3s");
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long thread = Thread.currentThread().getId();
    read.truth(cells.cells);
    threads.getThreadAllocatedBytes(thread);
    long before = threads.getThreadAllocatedBytes(thread);
    for (int i = 0; i < 10_000; i++) {
      read.truth(cells.cells);
    }
    // far below one object for each evaluation; what the virtual machine itself may need is allowed
    assertTrue(threads.getThreadAllocatedBytes(thread) - before < 10_000);
  }

  @Test
  void areConstantOnlyWithoutNamesAndErrors() {
    assertEquals(5, cells.read("2 + 3").constant());
    assertEquals(1, cells.read("T#1s < T#2s").constant());
    assertNull(cells.read("i - i").constant());
    assertNull(cells.read("INT#32767 + 1").constant());
  }

  @Test
  void takeInWhatAnAliasStandsFor() {
    Expression hazard = cells.read("r > 0.05");
    Expression read =
        ExpressionReader.read(
            SourceText.of("NOT Hazards.Struck AND b"),
            cells,
            name -> name.equalsIgnoreCase("hazards.struck") ? hazard : null,
            Type.BOOL,
            cells.problems);
    cells.set("b", 1).set("r", 0.01f);
    assertTrue(read.truth(cells.cells));
    cells.set("r", 0.5);
    assertFalse(read.truth(cells.cells));
    assertEquals(List.of("r", "b"), read.reads().stream().map(Symbol::name).toList());
    Structure.And and = (Structure.And) read.structure();
    Structure.Not not = (Structure.Not) and.parts().get(0).structure();
    assertInstanceOf(Structure.Comparison.class, not.part().structure());
  }
}
