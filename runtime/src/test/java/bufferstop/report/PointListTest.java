package bufferstop.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.image.Layout;
import bufferstop.image.Layout.Seen;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PointListTest {
  private static final Position NOWHERE = Position.ofFile("x.yaml");
  private static final String HEADER =
      "name,kind,type,map,unit_id,table,address,words,word_order,access,initial,safe,supply,"
          + "terminal,unit,text\r\n";

  private final Layout layout = new Layout();
  private final List<Point> points = new ArrayList<>();
  private final List<Entry> entries = new ArrayList<>();

  private void point(Kind kind, String name, Type type, String text, long value) {
    Name supply = kind == Kind.OUTPUT ? new Name("dc24", NOWHERE) : null;
    String terminal = kind == Kind.OUTPUT ? "X2-1" : "";
    long initial = kind == Kind.OUTPUT ? 0 : value;
    long safe = kind == Kind.OUTPUT ? value : 0;
    points.add(
        new Point(
            kind, name, type, text, terminal, supply, null, 0, initial, safe, null, null, false, 0,
            false, NOWHERE, null, 0, null));
    layout.add(name, type, kind, Seen.BY_ALL, "", text, NOWHERE);
  }

  private void mapped(String name, Table table, int address, Type type) {
    entries.add(
        new Entry(
            new Name(name, NOWHERE), table, address, type, WordOrder.LOW_WORD_FIRST, NOWHERE));
  }

  private PointList list() {
    ModbusMap map = new ModbusMap("hmi", "127.0.0.1", 0, 9, entries, NOWHERE);
    return new PointList(points, List.of(map), layout.field(), layout.observable(), kind -> true);
  }

  private String row() {
    String csv = list().csv();
    assertTrue(csv.startsWith(HEADER), csv);
    return csv.substring(HEADER.length());
  }

  @Test
  void anOperatorPointInARegisterHasEveryColumn() {
    point(Kind.OPERATOR, "fill_time", Type.TIME, "Gate open", 8_000_000);
    mapped("FILL_time", Table.HOLDING_REGISTER, 12, Type.TIME);
    assertEquals(
        "fill_time,operator,TIME,hmi,9,holding_register,12,2,low_word_first,read-write,T#8s,,,,,"
            + "Gate open\r\n",
        row());
  }

  @Test
  void anOutputHasItsSafeValueSupplyAndTerminalAndIsOnlyRead() {
    point(Kind.OUTPUT, "gate", Type.BOOL, "Gate", 1);
    mapped("gate", Table.COIL, 3, Type.BOOL);
    assertEquals("gate,output,BOOL,hmi,9,coil,3,,,read,,TRUE,dc24,X2-1,,Gate\r\n", row());
  }

  @Test
  void aPointInNoMapHasOneRowAndOneInTwoPlacesHasTwo() {
    point(Kind.INPUT, "beam", Type.BOOL, "", 0);
    point(Kind.INTERNAL, "loads", Type.UINT, "", 0);
    mapped("loads", Table.INPUT_REGISTER, 0, Type.UINT);
    mapped("loads", Table.HOLDING_REGISTER, 5, Type.UINT);
    assertEquals(
        """
        beam,input,BOOL,,,,,,,,,,,,,
        loads,internal,UINT,hmi,9,input_register,0,1,,read,0,,,,,
        loads,internal,UINT,hmi,9,holding_register,5,1,,read,0,,,,,
        """
            .replace("\n", "\r\n"),
        row());
  }

  @Test
  void plantPortsAndMappedNamesFollowOthersDoNot() {
    point(Kind.INPUT, "beam", Type.BOOL, "", 0);
    layout.add("haul.idle.X", Type.BOOL, Kind.INTERNAL, Seen.BY_ALL, "", "", NOWHERE);
    layout.add("haul.fill.X", Type.BOOL, Kind.INTERNAL, Seen.BY_ALL, "", "", NOWHERE);
    layout.add("line.speed", Type.LREAL, Kind.PLANT_PORT, Seen.BY_FIELD, "m/s", "Speed", NOWHERE);
    mapped("haul.fill.X", Table.DISCRETE_INPUT, 2, Type.BOOL);
    assertEquals(
        """
        beam,input,BOOL,,,,,,,,,,,,,
        haul.fill.X,internal,BOOL,hmi,9,discrete_input,2,,,read,,,,,,
        line.speed,plant port,LREAL,,,,,,,,,,,,m/s,Speed
        """
            .replace("\n", "\r\n"),
        row());
  }

  /** Source: RFC 4180, section 2, rules 5 to 7 [rule 5 re-read]. */
  @Test
  void commasQuotesAndLineBreaksAreQuoted() {
    point(Kind.INPUT, "a", Type.BOOL, "a,b", 0);
    point(Kind.INPUT, "b", Type.BOOL, "say \"hi\"", 0);
    point(Kind.INPUT, "c", Type.BOOL, "two\nlines", 0);
    point(Kind.INPUT, "d", Type.BOOL, "plain; | text", 0);
    assertEquals(
        "a,input,BOOL,,,,,,,,,,,,,\"a,b\"\r\n"
            + "b,input,BOOL,,,,,,,,,,,,,\"say \"\"hi\"\"\"\r\n"
            + "c,input,BOOL,,,,,,,,,,,,,\"two\nlines\"\r\n"
            + "d,input,BOOL,,,,,,,,,,,,,plain; | text\r\n",
        row());
  }

  @Test
  void aMarkdownRowStaysOneRow() {
    point(Kind.INPUT, "a", Type.BOOL, "left | right\nbelow", 0);
    String[] lines = list().markdown().split("\n");
    assertEquals(3, lines.length);
    assertTrue(lines[2].endsWith(" | left \\| right below |"), lines[2]);
  }

  @Test
  void theTableLeavesOutColumnsWithoutValues() {
    point(Kind.INPUT, "beam", Type.BOOL, "Beam", 0);
    assertEquals("name  kind   type  text\nbeam  input  BOOL  Beam\n", list().table());
  }

  private String mappedRow(Type type, Table table, int bit, Coding coding) {
    point(Kind.OPERATOR, "p", type, "", 0);
    Name name = new Name("p", NOWHERE);
    entries.add(new Entry(name, table, 5, bit, type, 0, coding, "", NOWHERE));
    return row();
  }

  private static Coding coded(ByteOrder bytes, Scale scale) {
    return new Coding(WordOrder.LOW_WORD_FIRST, bytes, scale);
  }

  @Test
  void aBitInARegisterHasItsNumberBehindTheAddress() {
    assertEquals(
        "p,operator,BOOL,hmi,9,holding_register,5.3,1,,read-write,FALSE,,,,,\r\n",
        mappedRow(Type.BOOL, Table.HOLDING_REGISTER, 3, coded(ByteOrder.HIGH_BYTE_FIRST, null)));
  }

  @Test
  void aScaledNumberShowsItsTypeAndStep() {
    Scale tenths = new Scale(Type.INT, 0.1, -10, 10, null);
    assertEquals(
        "p,operator,TIME as INT,hmi,9,input_register,5,1,,read,T#0s,,,,0.1 ms,\r\n",
        mappedRow(
            Type.TIME,
            Table.INPUT_REGISTER,
            ModbusMap.WHOLE,
            coded(ByteOrder.HIGH_BYTE_FIRST, tenths)));
  }

  @Test
  void exchangedBytesAreToldBesideTheOrderOfWords() {
    assertEquals(
        "p,operator,UDINT,hmi,9,holding_register,5,2,low_word_first low_byte_first,read-write,0,"
            + ",,,,\r\n",
        mappedRow(
            Type.UDINT,
            Table.HOLDING_REGISTER,
            ModbusMap.WHOLE,
            coded(ByteOrder.LOW_BYTE_FIRST, null)));
  }
}
