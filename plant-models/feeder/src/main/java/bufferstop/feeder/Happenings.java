package bufferstop.feeder;

import bufferstop.spi.EventSink;
import bufferstop.spi.PlantEvent;
import java.util.ArrayList;
import java.util.List;

/** The plant's events: declared by its parts while it is put together, told while it runs. */
final class Happenings {
  private final List<PlantEvent> declared = new ArrayList<>();
  private EventSink sink = (event, value) -> {};

  /** Declares an event; returns its number. */
  int declare(String name, String unit, String text) {
    declared.add(new PlantEvent(name, unit, text));
    return declared.size() - 1;
  }

  List<PlantEvent> all() {
    return List.copyOf(declared);
  }

  void tell(EventSink sink) {
    this.sink = sink;
  }

  void happened(int event, double value) {
    sink.happened(event, value);
  }
}
