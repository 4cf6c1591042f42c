package bufferstop.railway;

import bufferstop.spi.PlantEvent;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** What can happen on a railway; the host knows each by its ordinal. */
enum Happening {
  COUPLED("m/s", "two vehicles coupled, at this closing speed"),
  PARTED("m", "the uncoupler parted a coupler, at this place"),
  BUFFER_STRUCK("m/s", "a buffer stop was struck, at this speed"),
  WALL_STRUCK("m/s", "the wall behind a buffer stop was struck"),
  SPILLAGE_BEGAN("kg/s", "material misses the wagon, at this rate"),
  COLLIDED("m/s", "two vehicles struck each other, at this speed"),
  DERAILED("m/s", "a vehicle left the rails, at this speed"),
  DIVIDED("N", "a train came apart, at this tension"),
  RUN_THROUGH("", "a train pushed the blades of a turnout over"),
  MOVED_UNDER("", "a turnout was moved under a train"),
  OBSTACLE_STRUCK("m/s", "something on the track was struck"),
  PASSED_AT_DANGER("m/s", "a train passed a signal at danger"),
  UNPROTECTED("m/s", "a train came on a crossing that was not closed"),
  REVERSER_STEPPED("", "a reverser stepped: 0 forward to 3 neutral");

  private final PlantEvent event;

  Happening(String unit, String text) {
    event = new PlantEvent(name().toLowerCase(Locale.ROOT), unit, text);
  }

  static List<PlantEvent> events() {
    return Stream.of(values()).map(h -> h.event).toList();
  }
}
