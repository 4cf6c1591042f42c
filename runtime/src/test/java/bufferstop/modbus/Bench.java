package bufferstop.modbus;

import bufferstop.image.Layout;
import bufferstop.image.OperatorWrites;
import bufferstop.image.SnapshotRing;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.Serving;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A small image with its map, and a scan that does nothing but take writes and publish. Scans may
 * come from several threads, one after another.
 */
final class Bench {
  static final int UNIT = 1;
  private static final Position HERE = Position.ofFile("project.yaml");
  private static final int MOST_CELLS = 10_000;

  final SnapshotRing snapshots = new SnapshotRing(MOST_CELLS);
  final OperatorWrites writes = new OperatorWrites(MOST_CELLS);
  private final Layout layout = new Layout();
  private final List<Entry> entries = new ArrayList<>();
  private final List<Fixed> gaps = new ArrayList<>();
  private final List<Point> operatorPoints = new ArrayList<>();
  private final long[] cells = new long[MOST_CELLS];
  private final Map<Integer, List<Long>> taken = new TreeMap<>();
  private String section = "";

  static String name(Table table, int address) {
    return table.word() + "_" + address;
  }

  /** Maps a new operator point. */
  Bench operator(Table table, int address, Type type, WordOrder order, Long least, Long greatest) {
    Coding coding = new Coding(order, ByteOrder.HIGH_BYTE_FIRST, null);
    return coded(table, address, type, coding, least, greatest);
  }

  Bench operator(Table table, int address, Type type) {
    return operator(table, address, type, WordOrder.HIGH_WORD_FIRST, null, null);
  }

  /** Maps a new value that no client may write. */
  Bench readOnly(Table table, int address, Type type, WordOrder order) {
    String name = name(table, address);
    layout.add(name, type, Symbol.Kind.OUTPUT, Layout.Seen.BY_ALL, "", "", HERE);
    return again(table, address, name, type, order);
  }

  /** Maps a value that is mapped elsewhere already. */
  Bench again(Table table, int address, String name, Type type, WordOrder order) {
    entries.add(new Entry(new Name(name, HERE), table, address, type, order, HERE));
    return this;
  }

  /** Maps a new operator point in a coding of one's own. */
  Bench coded(Table table, int address, Type type, Coding coding, Long least, Long greatest) {
    return declare(table, address, type, least, greatest)
        .add(table, address, ModbusMap.WHOLE, type, coding);
  }

  /** Maps a new BOOL in one bit of a register; it is called by its address and bit as a coil. */
  Bench bit(Table table, int address, int bit, boolean writable) {
    int number = 100 * address + bit;
    String name = name(Table.COIL, number);
    layout.add(name, Type.BOOL, Symbol.Kind.OPERATOR, Layout.Seen.BY_ALL, "", "", HERE);
    if (writable) {
      operatorPoints.add(point(name, Type.BOOL, null, null));
    }
    entries.add(
        new Entry(
            new Name(name, HERE), table, address, bit, Type.BOOL, 0, Coding.PLAIN, section, HERE));
    return this;
  }

  private Bench declare(Table table, int address, Type type, Long least, Long greatest) {
    String name = name(table, address);
    layout.add(name, type, Symbol.Kind.OPERATOR, Layout.Seen.BY_ALL, "", "", HERE);
    operatorPoints.add(point(name, type, least, greatest));
    return this;
  }

  private Bench add(Table table, int address, int bit, Type type, Coding coding) {
    Name name = new Name(name(table, address), HERE);
    entries.add(new Entry(name, table, address, bit, type, 0, coding, section, HERE));
    return this;
  }

  Bench gap(Table table, int address, int size) {
    gaps.add(Fixed.gap(table, address, size, HERE));
    return this;
  }

  /** What is mapped from now on belongs to a section. */
  Bench section(String name) {
    section = name;
    return this;
  }

  /** Maps operator points at every address of a range. */
  Bench operators(Table table, int from, int to, Type type) {
    for (int at = from; at <= to; at++) {
      operator(table, at, type);
    }
    return this;
  }

  /** The fixture of the boundary checks: every table has exactly the addresses 0 to 99, all 0. */
  static Bench hundredOfEach() {
    return new Bench()
        .operators(Table.COIL, 0, 99, Type.BOOL)
        .operators(Table.DISCRETE_INPUT, 0, 99, Type.BOOL)
        .operators(Table.HOLDING_REGISTER, 0, 99, Type.UINT)
        .operators(Table.INPUT_REGISTER, 0, 99, Type.UINT)
        .scanned();
  }

  static Point point(String name, Type type, Long least, Long greatest) {
    return new Point(
        Symbol.Kind.OPERATOR,
        name,
        type,
        "",
        "",
        null,
        null,
        0,
        0,
        0,
        least,
        greatest,
        false,
        0,
        false,
        HERE,
        null,
        0,
        null);
  }

  MapImage image() {
    ModbusMap map =
        new ModbusMap("hmi", "127.0.0.1", 0, UNIT, entries, gaps, null, Serving.STANDARD, HERE);
    return MapImage.of(map, layout.field(), operatorPoints);
  }

  synchronized Bench set(Table table, int address, long bits) {
    cells[layout.field().find(name(table, address)).index()] = bits;
    return this;
  }

  synchronized long get(Table table, int address) {
    return cells[cell(table, address)];
  }

  int cell(Table table, int address) {
    return layout.field().find(name(table, address)).index();
  }

  synchronized void take() {
    writes.drain(
        cells,
        snapshots.published() + 1,
        (image, request) -> {
          request.writeTo(image);
          for (int i = 0; i < request.size(); i++) {
            long bits = image[request.cell(i)];
            taken.computeIfAbsent(request.cell(i), c -> new ArrayList<>()).add(bits);
          }
        });
  }

  /** Every value a point has taken from clients, in order. */
  synchronized List<Long> taken(Table table, int address) {
    return List.copyOf(taken.getOrDefault(cell(table, address), List.of()));
  }

  synchronized void publish() {
    snapshots.publish(cells);
  }

  synchronized void scan() {
    take();
    publish();
  }

  Bench scanned() {
    scan();
    return this;
  }

  /** What a server on this image would do with one request, without sockets or threads. */
  Frames frames() {
    return frames(this::scan, 1000);
  }

  /**
   * The same whose wait for a scan is made of {@code pause}.
   *
   * @param writeMillis until a write is withdrawn
   */
  Frames frames(Runnable pause, long writeMillis) {
    return new Frames(pause, writeMillis, unit(UNIT));
  }

  /** This image under an identifier of one's own. */
  Unit unit(int id) {
    return new Unit(id, image(), writes, snapshots);
  }

  ModbusServer server(ModbusServer.Limits limits) {
    return new ModbusServer("hmi", List.of(unit(UNIT)), "127.0.0.1", 0, limits);
  }

  /** Standard limits but for these. */
  static ModbusServer.Limits limits(int connections, long writeMillis) {
    ModbusServer.Limits standard = ModbusServer.Limits.STANDARD;
    return new ModbusServer.Limits(
        connections,
        connections,
        writeMillis,
        standard.idleNanos(),
        standard.stuckNanos(),
        standard.from(),
        standard.writers(),
        standard.priority());
  }

  static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replace(" ", ""));
  }

  static String hex(byte[] bytes) {
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
  }

  /** A frame around a PDU. */
  static byte[] frame(int transaction, int unit, byte[] pdu) {
    byte[] header = {
      (byte) (transaction >> 8),
      (byte) transaction,
      0,
      0,
      (byte) (pdu.length + 1 >> 8),
      (byte) (pdu.length + 1),
      (byte) unit
    };
    byte[] frame = Arrays.copyOf(header, 7 + pdu.length);
    System.arraycopy(pdu, 0, frame, 7, pdu.length);
    return frame;
  }
}
