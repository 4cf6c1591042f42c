package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Serving;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The rule for automatic addresses. */
class PlacementTest {
  private static final Position HERE = Position.ofFile("project.yaml");
  private static final Table HOLDING = Table.HOLDING_REGISTER;

  private final List<Entry> entries = new ArrayList<>();
  private final List<Fixed> gaps = new ArrayList<>();

  private PlacementTest entry(Table table, int address, Type type) {
    Name name = new Name("p" + entries.size(), HERE);
    entries.add(new Entry(name, table, address, type, WordOrder.HIGH_WORD_FIRST, HERE));
    return this;
  }

  private PlacementTest auto(Table table, Type type) {
    return entry(table, ModbusMap.AUTO, type);
  }

  private List<Integer> addresses() {
    ModbusMap map =
        new ModbusMap("hmi", "127.0.0.1", 0, 1, entries, gaps, null, Serving.STANDARD, HERE);
    Diagnostics problems = new Diagnostics();
    List<Entry> placed = new Placement(map, problems).place(entries);
    assertFalse(problems.hasErrors(), problems.sorted()::toString);
    return placed.stream().map(Entry::address).toList();
  }

  @Test
  void eachTableCountsFromZeroByTheSizeOfItsValues() {
    auto(HOLDING, Type.UDINT).auto(HOLDING, Type.UINT).auto(Table.COIL, Type.BOOL);
    auto(HOLDING, Type.LREAL).auto(Table.COIL, Type.BOOL).auto(Table.INPUT_REGISTER, Type.INT);
    assertEquals(List.of(0, 2, 0, 3, 1, 0), addresses());
  }

  @Test
  void anAddressThatIsGivenIsGoneOnFrom() {
    auto(HOLDING, Type.UINT).entry(HOLDING, 100, Type.UDINT).auto(HOLDING, Type.UINT);
    assertEquals(List.of(0, 100, 102), addresses());
  }

  @Test
  void whatIsTakenIsPassedOver() {
    entry(HOLDING, 0, Type.UINT).auto(HOLDING, Type.UDINT).auto(HOLDING, Type.UINT);
    entry(HOLDING, 2, Type.UINT);
    gaps.add(Fixed.gap(HOLDING, 5, 2, HERE));
    // 1 alone is too narrow for two registers, 5 and 6 are a gap
    assertEquals(List.of(0, 3, 7, 2), addresses());
  }

  @Test
  void whatIsAddedAtTheEndMovesNothing() {
    auto(HOLDING, Type.UDINT).entry(HOLDING, 10, Type.UINT).auto(HOLDING, Type.UINT);
    List<Integer> before = addresses();
    auto(HOLDING, Type.LREAL).auto(HOLDING, Type.UINT);
    assertEquals(before, addresses().subList(0, 3));
    assertEquals(List.of(12, 16), addresses().subList(3, 5));
  }
}
