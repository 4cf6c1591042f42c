package bufferstop.model;

import bufferstop.model.Controller.Alarm;
import bufferstop.model.Controller.Alarm.Command;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** The operator points that every alarm and every group of alarms has. */
public final class AlarmPoints {
  private AlarmPoints() {}

  /** The points of some alarms, those of their groups once each at the end. */
  public static List<Point> of(List<Alarm> alarms) {
    List<Point> points = new ArrayList<>();
    Map<String, Point> groups = new TreeMap<>();
    for (Alarm alarm : alarms) {
      for (Command command : Command.values()) {
        boolean stays = command == Command.OUT_OF_SERVICE;
        points.add(point(command.point(alarm.name()), !stays, alarm.position()));
      }
      if (alarm.group() != null) {
        String group = alarm.group().text();
        groups.putIfAbsent(
            group.toLowerCase(Locale.ROOT),
            point(Controller.groupPoint(group), true, alarm.group().position()));
      }
    }
    points.addAll(groups.values());
    return points;
  }

  private static Point point(String name, boolean momentary, Position position) {
    return Point.operator(name, ValueType.of(Type.BOOL), "", 0, momentary, position);
  }
}
