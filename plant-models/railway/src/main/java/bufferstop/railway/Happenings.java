package bufferstop.railway;

import bufferstop.spi.EventSink;

/** Where what happens is told. */
final class Happenings {
  private EventSink sink = (event, value) -> {};

  void tell(EventSink sink) {
    this.sink = sink;
  }

  void happened(Happening what, double value) {
    sink.happened(what.ordinal(), value);
  }
}
