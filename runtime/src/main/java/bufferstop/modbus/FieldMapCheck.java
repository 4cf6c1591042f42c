package bufferstop.modbus;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Point;
import bufferstop.model.Symbol.Kind;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Sees that inputs and outputs stand in tables that fit their way, each on its own device. */
public final class FieldMapCheck {
  private final Map<String, Point> points = new TreeMap<>();
  private final Map<String, Entry> mapped = new TreeMap<>(); // by face and point
  private final Diagnostics problems;

  /**
   * A check of all maps.
   *
   * @param all points of the controller
   */
  public FieldMapCheck(List<Point> all, Diagnostics problems) {
    all.forEach(p -> points.put(key(p.name()), p));
    this.problems = problems;
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  /** Reports what is wrong with a map of the face field or plc. */
  public void check(ModbusMap map) {
    if (map.face().equals("hmi") || map.isFaultPanel()) {
      return;
    }
    heartbeat(map);
    boolean field = map.face().equals("field");
    for (Entry entry : map.entries()) {
      Point point = points.get(key(entry.point().text()));
      boolean input = point != null && point.kind() == Kind.INPUT;
      boolean output = point != null && point.kind() == Kind.OUTPUT;
      boolean written = field ? output : !output;
      if (written && !entry.table().isWritable()) {
        problems.add(
            Diagnostic.error(
                    Code.DOES_NOT_FIT_TABLE,
                    entry.position(),
                    "`%s` is written to the device, in no %s"
                        .formatted(entry.point().text(), entry.table().word()))
                .expected("a coil or holding_register"));
      }
      if (input || output) {
        once(map, entry);
      }
      if (field && (input || output)) {
        onItsDevice(map, entry, point);
      }
    }
  }

  private void once(ModbusMap map, Entry entry) {
    Entry first = mapped.putIfAbsent(map.face() + "." + key(entry.point().text()), entry);
    if (first != null) {
      problems.add(
          Diagnostic.error(
                  Code.ADDRESS_TAKEN,
                  entry.position(),
                  "`" + entry.point().text() + "` is on two places of the devices")
              .expected("one place for each input and output")
              .note(first.position(), "the first one"));
    }
  }

  private void onItsDevice(ModbusMap map, Entry entry, Point point) {
    if (point.node() != null && !point.node().text().equalsIgnoreCase(map.device())) {
      problems.add(
          Diagnostic.error(
                  Code.DOES_NOT_FIT_TABLE,
                  entry.point().position(),
                  "`%s` is on the node `%s`, this is the map of `%s`"
                      .formatted(point.name(), point.node().text(), map.device()))
              .expected("each point of a node in the map of the unit that is called after it")
              .note(point.node().position(), "its node"));
    }
  }

  private void heartbeat(ModbusMap map) {
    if (map.polling().heartbeat() == null) {
      return;
    }
    Point point = points.get(key(map.polling().heartbeat().text()));
    if (point == null || point.kind() != Kind.OUTPUT) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  map.polling().heartbeat().position(),
                  "no output named `" + map.polling().heartbeat().text() + "`")
              .expected("an output that the controller changes again and again"));
    }
  }
}
