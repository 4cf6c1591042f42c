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
          new PlantEvent("spillage_began", "kg/s", "material misses the wagon, at this rate"),
          new PlantEvent("collided", "m/s", "two vehicles struck each other, at this speed"),
          new PlantEvent("derailed", "m/s", "a vehicle left the rails, at this speed"),
          new PlantEvent("divided", "N", "a train came apart, at this tension"),
          new PlantEvent("run_through", "", "a train pushed the blades of a turnout over"),
          new PlantEvent("moved_under", "", "a turnout was moved under a train"),
          new PlantEvent("obstacle_struck", "m/s", "something on the track was struck"),
          new PlantEvent("passed_at_danger", "m/s", "a train passed a signal at danger"),
          new PlantEvent("unprotected", "m/s", "a train came on a crossing that was not closed"),
          new PlantEvent("reverser_stepped", "", "a reverser stepped: 0 forward to 3 neutral"));

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

  void collided(double speed) {
    sink.happened(5, speed);
  }

  void derailed(double speed) {
    sink.happened(6, speed);
  }

  void divided(double newtons) {
    sink.happened(7, newtons);
  }

  void runThrough() {
    sink.happened(8, 0);
  }

  void movedUnder() {
    sink.happened(9, 0);
  }

  void obstacleStruck(double speed) {
    sink.happened(10, speed);
  }

  void passedAtDanger(double speed) {
    sink.happened(11, speed);
  }

  void unprotected(double speed) {
    sink.happened(12, speed);
  }

  void reverserStepped(int state) {
    sink.happened(13, state);
  }
}
