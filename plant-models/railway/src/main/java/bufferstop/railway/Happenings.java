package bufferstop.railway;

import bufferstop.spi.EventSink;
import bufferstop.spi.PlantEvent;
import java.util.List;

/** The plant's events and where they are told. */
final class Happenings {
  static final List<PlantEvent> EVENTS =
      List.of(
          new PlantEvent("coupled", "m/s", "two vehicles coupled, at this closing speed"),
          new PlantEvent("parted", "m", "the uncoupler parted a coupler, at this place"),
          new PlantEvent("buffer_struck", "m/s", "a buffer stop was struck, at this speed"),
          new PlantEvent("wall_struck", "m/s", "the wall behind a buffer stop was struck"),
          new PlantEvent("spillage_began", "kg/s", "material misses the wagon, at this rate"));

  private EventSink sink = (event, value) -> {};

  void tell(EventSink sink) {
    this.sink = sink;
  }

  void coupled(double speed) {
    sink.happened(0, speed);
  }

  void parted(double place) {
    sink.happened(1, place);
  }

  void bufferStruck(double speed) {
    sink.happened(2, speed);
  }

  void wallStruck(double speed) {
    sink.happened(3, speed);
  }

  void spillageBegan(double kgPerSecond) {
    sink.happened(4, kgPerSecond);
  }
}
