package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.Point;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Tree;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Reads the list of a map: points, all points of a kind, gaps, and headings of sections. Used for
 * one list.
 */
final class MapEntryLoader {
  private static final List<String> TABLES = Stream.of(Table.values()).map(Table::word).toList();
  private static final int ADDRESSES = 65_536;

  private final List<Point> points;
  private final Kind written;
  private final Diagnostics problems;
  private final List<Entry> entries = new ArrayList<>();
  private final List<Fixed> gaps = new ArrayList<>();
  private final List<String> sections = new ArrayList<>();
  private String section = "";

  /**
   * A reader of one list.
   *
   * @param points of the controller, for entries that mean all of a kind
   * @param written the kind that stands in coils and holding registers
   */
  MapEntryLoader(List<Point> points, Kind written, Diagnostics problems) {
    this.points = points;
    this.written = written;
    this.problems = problems;
  }

  /** The orders of words and bytes that a map, a unit or an entry gives, or those above it. */
  Coding orders(TableReader reader, Coding above) {
    return new Coding(
        reader.choice("word_order", WordOrder.class, above.words()),
        reader.choice("byte_order", ByteOrder.class, above.bytes()),
        null);
  }

  MapEntries read(List<Tree> items, Coding coding) {
    for (Tree item : items) {
      TableReader reader = TableReader.open(item, ModbusForms.ENTRY, problems);
      if (reader == null) {
        continue;
      }
      if (reader.has("section")) {
        heading(reader);
      } else if (reader.has("gap")) {
        gap(reader);
      } else if (reader.has("all")) {
        all(reader, coding);
      } else {
        point(reader, coding);
      }
    }
    return new MapEntries(List.copyOf(entries), List.copyOf(gaps), List.copyOf(sections));
  }

  private void heading(TableReader reader) {
    Name name = reader.name("section");
    reader.finish();
    if (name != null && Identifiers.check(name, problems)) {
      section = name.text().toLowerCase(Locale.ROOT);
      sections.add(section);
    }
  }

  private void gap(TableReader reader) {
    int size = (int) reader.whole("gap", 0, 1, ADDRESSES);
    Place place = place(reader, reader.at(), false);
    reader.finish();
    if (place == null || size == 0) {
      return;
    }
    if (place.address + size > ADDRESSES) {
      problems.add(
          Diagnostic.error(
                  Code.PAST_THE_END, place.position, "this gap runs past the end of the table")
              .expected("an address up to " + (ADDRESSES - size)));
      return;
    }
    gaps.add(Fixed.gap(place.table, place.address, size, place.position));
  }

  /** Which points an entry may mean together. */
  enum All {
    INPUTS(Kind.INPUT),
    OUTPUTS(Kind.OUTPUT),
    OPERATOR(Kind.OPERATOR),
    INTERNAL(Kind.INTERNAL);

    private final Kind kind;

    All(Kind kind) {
      this.kind = kind;
    }
  }

  private void all(TableReader reader, Coding coding) {
    All meant = reader.choice("all", All.class, null);
    Coding own = orders(reader, coding);
    reader.finish();
    if (meant == null) {
      return;
    }
    Position position = reader.tree("all").position();
    for (Point point : points) {
      if (point.kind() == meant.kind) {
        Name name = new Name(point.name(), position);
        entries.add(
            new Entry(
                name,
                table(point),
                ModbusMap.AUTO,
                ModbusMap.WHOLE,
                point.type(),
                0,
                own,
                section,
                position));
      }
    }
  }

  private Table table(Point point) {
    boolean written = point.kind() == this.written;
    if (point.type() == Type.BOOL) {
      return written ? Table.COIL : Table.DISCRETE_INPUT;
    }
    return written ? Table.HOLDING_REGISTER : Table.INPUT_REGISTER;
  }

  private void point(TableReader reader, Coding coding) {
    Name point = reader.requiredName("point");
    Coding own = orders(reader, coding);
    Scale scale = new ScaleLoader(problems).read(reader);
    int bit = (int) reader.whole("bit", ModbusMap.WHOLE, 0, 15);
    Place place = place(reader, point == null ? reader.at() : point.position(), true);
    boolean unscaled = scale == null && ScaleLoader.isGiven(reader);
    if (point == null || place == null || unscaled || !checkBit(reader, place, scale)) {
      return;
    }
    entries.add(
        new Entry(
            point,
            place.table,
            place.address,
            bit,
            Type.BOOL,
            0,
            new Coding(own.words(), own.bytes(), scale),
            section,
            place.position));
  }

  private boolean checkBit(TableReader reader, Place place, Scale scale) {
    String wrong = null;
    if (place.table.isBit()) {
      wrong = reader.has("bit") ? "bit" : scale != null ? "as" : null;
    } else if (reader.has("bit") && scale != null) {
      wrong = "as";
    }
    if (wrong != null) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry(wrong).key().position(),
                  "`" + wrong + "` on " + (place.table.isBit() ? place.table.word() : "a bit"))
              .expected(
                  wrong.equals("bit")
                      ? "`bit` on a holding_register or input_register"
                      : "`as` on whole registers of a number"));
      return false;
    }
    if (reader.has("bit") && place.address == ModbusMap.AUTO) {
      problems.add(
          Diagnostic.error(
                  Code.KEY_DOES_NOT_FIT,
                  reader.entry("bit").key().position(),
                  "`bit` without an address")
              .expected("the register's address in place of `auto`"));
      return false;
    }
    return true;
  }

  private record Place(Table table, int address, Position position) {}

  /** The one table an entry names, with its address; null after a diagnostic. */
  private Place place(TableReader reader, Position shown, boolean mayBeAutomatic) {
    List<String> given = reader.given(TABLES);
    boolean automatic = given.size() == 1 && mayBeAutomatic && isAuto(reader, given.get(0));
    int address = -1;
    if (given.size() == 1 && !automatic) {
      address = (int) reader.whole(given.get(0), -1, 0, ADDRESSES - 1);
    }
    boolean known = reader.finish();
    if (given.size() > 1 || given.isEmpty() && known) {
      problems.add(
          Diagnostic.error(
                  Code.CHOOSE_ONE,
                  shown,
                  given.isEmpty()
                      ? "this entry names no table"
                      : "this entry names several tables: " + String.join(", ", given))
              .expected(
                  "exactly one of " + String.join(", ", TABLES) + ", with an address or `auto`"));
    }
    if (given.size() != 1 || address < 0 && !automatic) {
      return null;
    }
    Table table = Table.valueOf(given.get(0).toUpperCase(Locale.ROOT));
    int at = automatic ? ModbusMap.AUTO : address;
    return new Place(table, at, reader.tree(given.get(0)).position());
  }

  private static boolean isAuto(TableReader reader, String table) {
    return reader.tree(table) instanceof Tree.Scalar s && s.value().equalsIgnoreCase("auto");
  }

  /** The text of an optional key without any complaint, or null. */
  static SourceText textOf(TableReader reader, String key) {
    return reader.tree(key) instanceof Tree.Scalar scalar ? scalar.text() : null;
  }
}
