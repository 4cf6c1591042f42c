package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.blocks.StandardBlocks;
import bufferstop.engine.SmallController;
import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.BlockType.Pin;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Every block as a project declares it. */
class StandardBlocksTest {

  /** Every block, every input given by an operator point of its own. */
  private static SmallController everyBlock() {
    StringBuilder points = new StringBuilder("operator:\n");
    StringBuilder blocks = new StringBuilder("blocks:\n");
    for (BlockType type : StandardBlocks.all()) {
      blocks.append("  b_").append(type.name()).append(": {block: ").append(type.name());
      for (Pin pin : type.inputs()) {
        String point = type.name().replaceAll("_+$", "") + "_in_" + pin.name();
        points.append("  ").append(point).append(": {type: ").append(pin.type()).append("}\n");
        blocks.append(", ").append(pin.name()).append(": ").append(point);
      }
      blocks.append("}\n");
    }
    return SmallController.of(points.toString() + blocks);
  }

  @Test
  void doesTheSameCompiledAndAsItStandsWhateverItsInputsAre() {
    SmallController on = everyBlock();
    long bits = 1;
    for (int scan = 0; scan <= 300; scan++) {
      for (BlockType type : StandardBlocks.all()) {
        for (Pin pin : type.inputs()) {
          bits = bits * 6364136223846793005L + 1442695040888963407L; // any bits will do
          on.set(type.name() + "_in_" + pin.name(), value(pin.type(), bits >>> 16));
        }
      }
      on.scan(); // compares every cell of both
    }
    assertEquals(300, on.get("scan.count"));
  }

  private static long value(Type type, long bits) {
    return switch (type) {
      case BOOL -> bits & 1;
      case LREAL -> Double.doubleToLongBits((bits % 400) / 10.0);
      default -> bits % 500;
    };
  }

  @Test
  void whatIsLeftOutHasItsDefault() {
    SmallController on =
        SmallController.of(
            """
            operator: {ma: {type: LREAL}}
            blocks: {b: {block: ANALOGUE_INPUT, RAW: ma, LOW: 0.0, HIGH: 100.0}}
            """);
    on.set("ma", Double.doubleToLongBits(12)).scan();
    assertEquals(50, Double.longBitsToDouble(on.get("b.VALUE")));
    assertEquals(1, on.get("b.OK"));
    on.set("ma", Double.doubleToLongBits(0)).scan();
    assertEquals(1, on.get("b.LOW_FAILURE"));
    assertEquals(50, Double.longBitsToDouble(on.get("b.VALUE")));
  }

  @Test
  void aRealOrAnIntegerFitsAnLrealPin() {
    SmallController on =
        SmallController.of(
            """
            operator: {counts: {type: INT}, level: {type: REAL}}
            blocks:
              a: {block: ANALOGUE_INPUT, RAW: counts, RAW_LOW: 0, RAW_HIGH: 32000, LOW: 0, HIGH: 8}
              h: {block: HYSTERESIS, IN: level, ON: 5, OFF: 4}
            """);
    on.set("counts", 16_000).set("level", Double.doubleToLongBits(5.5)).scan();
    assertEquals(4, Double.longBitsToDouble(on.get("a.VALUE")));
    assertEquals(1, on.get("h.Q"));
  }

  @Test
  void worksScanByScanInAProject() {
    play(
        SmallController.of(
            """
            operator: {EN: {type: BOOL}}
            blocks:
              g: {block: PULSE_GENERATOR, EN: EN, ON: T#200ms, OFF: T#100ms}
              h: {block: ON_TIME_COUNTER, IN: g.Q}
              s: {block: START_COUNTER, IN: g.Q}
            """),
        """
        EN    0 1   1   1   1   1   1   1
        g.Q   0 1   1   0   1   1   0   1
        h.ET  0 0 100 200 200 300 400 400
        s.CV  0 1   1   1   2   2   2   3
        """);
  }

  @Test
  void everyPinSaysWhatItIsAndNoNameComesTwice() {
    TreeSet<String> names = new TreeSet<>();
    for (BlockType type : StandardBlocks.all()) {
      assertEquals(true, names.add(type.name()), type.name());
      TreeSet<String> pins = new TreeSet<>();
      for (Pin pin : concat(type.inputs(), type.outputs())) {
        assertEquals(true, pins.add(pin.name()), type.name() + " " + pin.name());
        assertEquals(false, pin.text().isBlank(), type.name() + " " + pin.name());
      }
    }
  }

  private static List<Pin> concat(List<Pin> inputs, List<Pin> outputs) {
    return Stream.concat(inputs.stream(), outputs.stream()).toList();
  }
}
