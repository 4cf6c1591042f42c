package bufferstop.modbus;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.MeterNames;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Coding;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Scope;
import bufferstop.model.SunSpecMeter;
import bufferstop.model.SunSpecMeter.Quantity;
import bufferstop.model.Type;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;

/**
 * Lays a meter out as SunSpec does: marker, common model 1, the meter model in whole numbers, the
 * one in floating point, end model. All in holding registers, high word first. Used for one unit.
 *
 * <p>Source: the Alliance's model definitions 1, 201, 203, 211, 213 [re-read]; marker, end model
 * and values that stand for what is not implemented as its own library has them [second-hand].
 */
final class SunSpecMap {
  private static final int[] MARKER = {0x5375, 0x6E53};
  private static final int COMMON = 1;
  private static final int COMMON_LENGTH = 66;
  private static final int LONG_TEXT = 16; // registers
  private static final int SHORT_TEXT = 8;
  private static final int PAD = 0x8000;
  private static final int END = 0xFFFF;
  private static final int NO_INT16 = 0x8000;
  private static final int[] NO_ACCUMULATOR = {0, 0};
  private static final int[] NO_FLOAT = {0x7FC0, 0};
  private static final int INT_LENGTH = 105;
  private static final int FLOAT_LENGTH = 124;
  private static final int POWER_FAILURE_BIT = 2;
  private static final double GREATEST_INT = 32_767;
  private static final double GREATEST_ACCUMULATOR = 4_294_967_295.0;
  private static final String POWER_FAILED = "power_failed";

  private final ModbusMap map;
  private final SunSpecMeter meter;
  private final Scope scope;
  private final Position position;
  private final List<Entry> entries = new ArrayList<>();
  private final List<Fixed> fixed = new ArrayList<>();
  private int next;

  private SunSpecMap(ModbusMap map, Scope scope) {
    this.map = map;
    this.scope = scope;
    meter = map.meter();
    position = meter.port().position();
  }

  /** The map of a unit that shows a meter, addresses and all; unchanged after a diagnostic. */
  static ModbusMap of(ModbusMap map, Scope scope, Diagnostics problems) {
    SunSpecMap made = new SunSpecMap(map, scope);
    return made.check(problems) ? made.make() : map;
  }

  private boolean check(Diagnostics problems) {
    TreeSet<String> missing = new TreeSet<>();
    TreeSet<String> there = new TreeSet<>();
    for (SunSpecPoint point : SunSpecPoint.ALL) {
      if (point.isMandatory(meter)) {
        (has(point.value(meter)) ? there : missing).add(point.value(meter));
      }
    }
    String head = meter.port().text();
    if (missing.isEmpty() || problems.doubts(head)) {
      return missing.isEmpty();
    }
    String kind = meter.threePhase() ? "three-phase" : "single-phase";
    problems.add(
        there.isEmpty()
            ? Diagnostic.error(Code.UNKNOWN_NAME, position, "no meter named `" + head + "`")
                .expected("a plant's meter, whose values are ports such as METER.imported")
                .help(NearNames.question(head, MeterNames.heads(scope)))
            : Diagnostic.error(
                    Code.DOES_NOT_FIT_TABLE,
                    position,
                    "`" + head + "` lacks " + String.join(", ", missing))
                .expected("all that a " + kind + " meter must show"));
    return false;
  }

  private String name(String value) {
    return meter.port().text() + "." + value;
  }

  private boolean has(String value) {
    return !value.isEmpty() && scope.find(name(value)) != null;
  }

  private ModbusMap make() {
    next = meter.base();
    put(MARKER);
    common();
    wholeNumbers();
    floats();
    put(END, 0);
    return map.with(List.copyOf(entries), List.copyOf(fixed));
  }

  private void common() {
    put(COMMON, COMMON_LENGTH);
    text(meter.manufacturer(), LONG_TEXT);
    text(meter.model(), LONG_TEXT);
    text(meter.options(), SHORT_TEXT);
    text(meter.version(), SHORT_TEXT);
    text(meter.serial(), LONG_TEXT);
    put(map.unit(), PAD);
  }

  private void wholeNumbers() {
    put(meter.threePhase() ? 203 : 201, INT_LENGTH);
    List<SunSpecPoint> points = SunSpecPoint.ALL;
    for (int i = 0; i < points.size(); i++) {
      SunSpecPoint point = points.get(i);
      whole(point);
      if (i + 1 == points.size() || points.get(i + 1).quantity() != point.quantity()) {
        put(isShown(point.quantity()) ? exponent(point.quantity()) & 0xFFFF : NO_INT16);
      }
    }
    events();
  }

  private void whole(SunSpecPoint point) {
    String value = point.value(meter);
    boolean accumulator = point.isAccumulator();
    if (!has(value)) {
      put(accumulator ? NO_ACCUMULATOR : new int[] {NO_INT16});
      return;
    }
    // a power factor is a percentage here, and none in floating point
    double unit = point.quantity() == Quantity.PF ? 100 : 1;
    double factor = Double.parseDouble("1E" + exponent(point.quantity())) / unit;
    value(
        value,
        accumulator
            ? new Scale(Type.UDINT, factor, 0, GREATEST_ACCUMULATOR * factor, null)
            : new Scale(Type.INT, factor, -GREATEST_INT * factor, GREATEST_INT * factor, null));
  }

  private int exponent(Quantity quantity) {
    return meter.scales().get(quantity);
  }

  private boolean isShown(Quantity quantity) {
    return SunSpecPoint.ALL.stream().anyMatch(p -> p.quantity() == quantity && has(p.value(meter)));
  }

  private void floats() {
    put(meter.threePhase() ? 213 : 211, FLOAT_LENGTH);
    for (SunSpecPoint point : SunSpecPoint.ALL) {
      if (has(point.value(meter))) {
        value(point.value(meter), Scale.AS_REAL);
      } else {
        put(NO_FLOAT);
      }
    }
    events();
  }

  /** Flags of events: the meter's voltage gone, if it tells, and no other. */
  private void events() {
    put(0);
    if (has(POWER_FAILED)) {
      entries.add(entry(POWER_FAILED, POWER_FAILURE_BIT, Coding.PLAIN));
      next++;
    } else {
      put(0);
    }
  }

  private void value(String value, Scale scale) {
    Coding coding = new Coding(WordOrder.HIGH_WORD_FIRST, ByteOrder.HIGH_BYTE_FIRST, scale);
    Entry entry = entry(value, ModbusMap.WHOLE, coding);
    entries.add(entry);
    next += entry.size();
  }

  private Entry entry(String value, int bit, Coding coding) {
    Name name = new Name(name(value), position);
    Entry open =
        new Entry(
            name, Table.HOLDING_REGISTER, next, bit, Type.BOOL, 0, coding, "", map.position());
    return open.of(scope.find(name(value)));
  }

  private void text(String text, int registers) {
    int[] words = new int[registers];
    for (int i = 0; i < text.length(); i++) {
      words[i / 2] |= text.charAt(i) << (i % 2 == 0 ? 8 : 0);
    }
    put(words);
  }

  private void put(int... words) {
    fixed.add(
        new Fixed(
            Table.HOLDING_REGISTER,
            next,
            words.length,
            Arrays.stream(words).boxed().toList(),
            map.position()));
    next += words.length;
  }
}
