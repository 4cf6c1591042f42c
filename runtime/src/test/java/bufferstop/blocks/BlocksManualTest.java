package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Values;
import bufferstop.st.BlockType;
import bufferstop.st.BlockType.Pin;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * The tables of blocks and pins in the manual are those of the blocks; when they differ, what would
 * be right stands in {@code target/blocks-manual.md}.
 */
class BlocksManualTest {
  private static final Path MANUAL = Path.of("..", "configs", "README.md");
  private static final Path RIGHT = Path.of("target", "blocks-manual.md");
  private static final String BLOCKS = "| block | inputs | outputs | does |\n";
  private static final String PINS = "| block | pin | type | default | what |\n";

  @Test
  void theManualHasTheBlocksAndPinsOfTheProduct() throws IOException {
    String blocks = BLOCKS + rule(4) + rows(StandardBlocks.all(), BlocksManualTest::blockRow);
    String pins = PINS + rule(5) + rows(further(), BlocksManualTest::pinRows);
    Files.writeString(RIGHT, blocks + "\n" + pins);
    String manual = Files.readString(MANUAL);
    assertEquals(blocks, table(manual, BLOCKS), "see " + RIGHT);
    assertEquals(pins, table(manual, PINS), "see " + RIGHT);
  }

  private static String rule(int columns) {
    return "|" + " --- |".repeat(columns) + "\n";
  }

  /** Those that are not the standard's. */
  private static List<BlockType> further() {
    List<BlockType> all = StandardBlocks.all();
    return all.subList(all.indexOf(Counters.UpDown.TYPE) + 1, all.size());
  }

  private static String rows(List<BlockType> types, Function<BlockType, String> row) {
    return types.stream().map(row).collect(Collectors.joining());
  }

  private static String table(String manual, String head) {
    int start = manual.indexOf(head);
    return start < 0 ? "" : manual.substring(start, manual.indexOf("\n\n", start) + 1);
  }

  private static String blockRow(BlockType type) {
    return "| %s | %s | %s | %s |%n"
        .formatted(type.name(), names(type.inputs()), names(type.outputs()), type.text());
  }

  private static String names(List<Pin> pins) {
    return pins.stream().map(Pin::name).collect(Collectors.joining(", "));
  }

  private static String pinRows(BlockType type) {
    StringBuilder rows = new StringBuilder();
    for (Pin pin : type.inputs()) {
      rows.append(row(type, pin, pin.required() ? "required" : "`" + initial(pin) + "`"));
    }
    type.outputs().forEach(pin -> rows.append(row(type, pin, "output")));
    return rows.toString();
  }

  private static String row(BlockType type, Pin pin, String state) {
    return "| %s | %s | %s | %s | %s |%n"
        .formatted(type.name(), pin.name(), pin.type(), state, pin.text());
  }

  private static String initial(Pin pin) {
    return Values.print(pin.type(), pin.initial().get(0));
  }
}
