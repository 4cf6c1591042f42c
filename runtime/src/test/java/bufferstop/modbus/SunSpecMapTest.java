package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.image.Layout;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Serving;
import bufferstop.model.SunSpecMeter;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A meter's map against values worked out apart from this code: the layout follows from the lengths
 * of the Alliance's model definitions 1, 201 and 211 [re-read], the words from IEEE 754 and two's
 * complement.
 */
class SunSpecMapTest {
  private static final Position HERE = Position.ofFile("test");
  private static final List<String> VALUES =
      List.of(
          "amperes",
          "volts",
          "hertz",
          "watts",
          "vars",
          "apparent",
          "power_factor",
          "imported",
          "exported",
          "apparent_imported",
          "apparent_exported",
          "reactive_1",
          "reactive_2",
          "reactive_3",
          "reactive_4");

  private final Layout layout = new Layout();
  private final Map<String, Double> given = new TreeMap<>();
  private final Diagnostics problems = new Diagnostics();

  private ModbusMap map(boolean threePhase, List<String> ports) {
    for (String port : ports) {
      layout.add("m." + port, Type.LREAL, Symbol.Kind.PLANT_PORT, Layout.Seen.BY_ALL, "", "", HERE);
    }
    layout.add(
        "m.power_failed", Type.BOOL, Symbol.Kind.PLANT_PORT, Layout.Seen.BY_ALL, "", "", HERE);
    SunSpecMeter meter =
        new SunSpecMeter(
            new Name("m", HERE),
            threePhase,
            "Maker",
            "Kind",
            "",
            "2",
            "S-1",
            40_000,
            SunSpecMeter.usualScales());
    ModbusMap open =
        new ModbusMap("hmi.m", "", -1, 9, List.of(), List.of(), meter, Serving.STANDARD, HERE);
    return MapLinker.link(open, layout.field(), problems);
  }

  /** The words of some registers with the values given so far. */
  private String words(int address, int count) throws Refusal {
    ModbusMap map = map(false, VALUES);
    assertEquals(List.of(), problems.sorted());
    MapImage image = MapImage.of(map, layout.field(), List.of());
    long[] cells = new long[layout.symbols().size()];
    given.forEach(
        (name, value) -> {
          Symbol symbol = layout.field().find("m." + name);
          boolean bool = symbol.type() == Type.BOOL;
          cells[symbol.index()] = bool ? value.longValue() : Double.doubleToLongBits(value);
        });
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < count; i++) {
      Slot slot = image.table(Table.HOLDING_REGISTER).slotAt(address + i);
      text.append(i == 0 ? "" : " ");
      text.append(String.format("%04X", slot.word(cells, address + i - slot.address())));
    }
    return text.toString();
  }

  @ParameterizedTest(name = "{1} {0} is {3} at {2}, and {5} at {4}")
  @CsvSource({
    "amperes, 12.34, 40072, 04D2, 40179, 4145 70A4",
    "volts, 230.1, 40077, 08FD, 40187, 4366 199A",
    "hertz, 50, 40086, 1388, 40203, 4248 0000",
    "watts, 2830, 40088, 0B0E, 40205, 4530 E000",
    "watts, -2830, 40088, F4F2, 40205, C530 E000",
    "power_factor, 0.95, 40103, 251C, 40229, 3F73 3333",
    "imported, 123456789, 40116, 075B CD15, 40245, 4CEB 79A3",
    // out of the range of 16 bits the greatest number shows, never the one for `not implemented`
    "watts, -99999, 40088, 8001, 40205, C7C3 4F80",
    "watts, 99999, 40088, 7FFF, 40205, 47C3 4F80"
  })
  void valuesStandWhereAndAsTheModelsSay(
      String port, double value, int whole, String wholeWords, int real, String realWords)
      throws Refusal {
    given.put(port, value);
    assertEquals(wholeWords, words(whole, wholeWords.length() > 4 ? 2 : 1));
    assertEquals(realWords, new SunSpecMapTest().with(port, value).words(real, 2));
  }

  private SunSpecMapTest with(String port, double value) {
    given.put(port, value);
    return this;
  }

  @ParameterizedTest(name = "{1} at {0}")
  @CsvSource({
    "40000, 5375 6E53 0001 0042 4D61 6B65 7200", // marker, common model, `Maker`
    "40068, 0009 8000 00C9 0069", // address, pad, model 201
    "40074, 8000 8000 FFFE", // phases B and C, scale of currents
    "40092, 0000", // scale of powers
    "40175, 0000 0000 00D3 007C", // no event, model 211
    "40183, 7FC0 0000", // phase B
    "40301, 0000 0000 FFFF 0000" // no event, end
  })
  void theFrameIsThatOfTheSpecification(int address, String words) throws Refusal {
    assertEquals(words, words(address, (words.length() + 1) / 5));
  }

  @Test
  void aPowerFailureIsBitTwoOfTheEvents() throws Refusal {
    given.put("power_failed", 1.0);
    assertEquals("0000 0004", words(40_175, 2));
  }

  @Test
  void aMeterThatLacksWhatIsMandatoryIsRefused() {
    map(true, VALUES);
    assertEquals(1, problems.sorted().size());
    String message = problems.sorted().get(0).message();
    assertTrue(message.startsWith("`m` lacks amperes_a, amperes_b, amperes_c, volts_a"), message);
  }

  @Test
  void whatIsNoMeterIsRefusedOnce() {
    map(false, List.of("speed"));
    assertEquals(1, problems.sorted().size());
    assertEquals("no meter named `m`", problems.sorted().get(0).message());
  }
}
