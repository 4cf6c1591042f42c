package bufferstop.rig;

import bufferstop.image.Layout;
import bufferstop.model.Controller;
import bufferstop.model.Controller.InterlockKind;
import bufferstop.model.Field;
import bufferstop.model.Project;
import bufferstop.model.Symbol;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;

/**
 * Tells what happens in an image from scan to scan: steps that begin, trips, hazards, nodes and
 * supplies that are lost. Allocates only when something happens.
 */
final class EventWatch {

  /**
   * A BOOL that is watched.
   *
   * @param rises what its rising edge is; empty to keep silent
   * @param falls what its falling edge is
   */
  private record Watched(int cell, String rises, String falls, List<Symbol> causes) {}

  private final List<Watched> watched = new ArrayList<>();
  private final boolean[] last;
  private final Layout layout;
  private final BiConsumer<Long, String> sink;

  /**
   * @param sink takes a logical time in microseconds and a line
   */
  EventWatch(Project project, Layout layout, BiConsumer<Long, String> sink) {
    this.layout = layout;
    this.sink = sink;
    for (Controller.Interlock interlock : project.controller().interlocks()) {
      if (interlock.kind() == InterlockKind.TRIP) {
        String name = interlock.name();
        List<Symbol> causes = new ArrayList<>();
        for (Controller.Cause cause : interlock.causes()) {
          Symbol first = layout.field().find(name + ".first." + cause.name());
          if (first != null) {
            causes.add(first);
          }
        }
        watch(name + ".tripped", "trip " + name, "trip " + name + " is reset", causes);
      }
    }
    for (Controller.Sequence sequence : project.controller().sequences()) {
      for (Controller.Step step : sequence.steps()) {
        String name = sequence.name() + "." + step.name();
        watch(name + ".X", "step " + name, "", List.of());
      }
    }
    for (Field.Node node : project.field().nodes()) {
      String name = "node " + node.name();
      watch("nodes." + node.name() + ".ok", name + " answers", name + " is lost", List.of());
    }
    for (Field.Hazard hazard : project.field().hazards()) {
      watch("hazards." + hazard.name(), "hazard " + hazard.name(), "", List.of());
    }
    last = new boolean[watched.size()];
  }

  private void watch(String point, String rises, String falls, List<Symbol> causes) {
    Symbol symbol = layout.field().find(point);
    if (symbol != null) {
      watched.add(new Watched(symbol.index(), rises, falls, causes));
    }
  }

  /** Values before the first scan tell nothing. */
  void start(long[] cells) {
    for (int i = 0; i < last.length; i++) {
      last[i] = cells[watched.get(i).cell] != 0;
    }
  }

  /** Takes the image after a scan. */
  void observe(long[] cells, long nowMicros) {
    for (int i = 0; i < last.length; i++) {
      boolean now = cells[watched.get(i).cell] != 0;
      if (now != last[i]) {
        last[i] = now;
        tell(watched.get(i), now, cells, nowMicros);
      }
    }
  }

  private void tell(Watched one, boolean now, long[] cells, long nowMicros) {
    String text = now ? one.rises : one.falls;
    if (text.isEmpty()) {
      return;
    }
    StringBuilder causes = new StringBuilder();
    for (Symbol cause : one.causes) {
      if (now && cells[cause.index()] != 0) {
        String name = cause.name();
        causes.append(causes.isEmpty() ? " by " : ", ");
        causes.append(name.substring(name.lastIndexOf('.') + 1));
      }
    }
    sink.accept(nowMicros, text + causes);
  }
}
