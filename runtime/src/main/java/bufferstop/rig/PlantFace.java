package bufferstop.rig;

import bufferstop.engine.Engine;
import bufferstop.modbus.Identification;
import bufferstop.modbus.MapImage;
import bufferstop.modbus.ModbusServer;
import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.modbus.PollCycles;
import bufferstop.modbus.RemoteDevice;
import bufferstop.modbus.Unit;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Point;
import bufferstop.model.Polling;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * What another controller sees of a simulated plant: it asks the devices of the map {@code field},
 * or is itself asked as the map {@code plc} says. Its outputs go to the cells in which a program of
 * our own would have put them.
 */
public final class PlantFace implements Engine.Arrivals, AutoCloseable {
  private final Rig rig;
  private final List<ModbusMap> maps;
  private final Polling polling;
  private final List<Point> writable;
  private final List<ModbusServer> servers = new ArrayList<>();
  private final List<Asked> asked = new ArrayList<>();
  private final int[] programCells; // by cell of an output in the field; others are themselves
  private final int[] outputs; // as the program would write them
  private final long[] safe;
  private final int heartbeat; // cell, or negative
  private long lastHeartbeat;
  private long heartbeatSilentMicros;
  private long heard = -1;
  private long silentMicros = Long.MAX_VALUE / 2; // not heard before the first time
  private volatile boolean quiet = true;
  private long quietTimes;

  /** A controller that is asked. */
  private static final class Asked {
    final RemoteDevice remote;
    final int[] cells; // where its outputs go
    final long[] arrived;
    long publication = -1;

    Asked(RemoteDevice remote, int[] cells) {
      this.remote = remote;
      this.cells = cells;
      arrived = new long[remote.width()];
    }

    void arrive(long[] image) {
      long known = publication;
      publication = remote.arrive(known, arrived);
      if (publication != known) {
        for (int i = 0; i < cells.length; i++) {
          image[cells[i]] = arrived[i];
        }
      }
    }
  }

  /**
   * A face that is not open yet.
   *
   * @param rig of the plant side of a project, fresh from {@link Rig#build}
   * @param face {@code field}, which is served, or {@code plc}, which is asked
   */
  public PlantFace(Rig rig, String face) {
    this.rig = rig;
    maps = rig.maps().stream().filter(m -> m.face().equals(face)).toList();
    polling = maps.get(0).polling();
    List<Point> points = outputs(rig);
    writable = new ArrayList<>(points);
    writable.addAll(rig.writable());
    outputs = points.stream().mapToInt(p -> program(p.name())).toArray();
    safe = points.stream().mapToLong(Point::safe).toArray();
    programCells = IntStream.range(0, rig.layout().symbols().size()).toArray();
    points.forEach(p -> programCells[field(p.name())] = program(p.name()));
    heartbeat = polling.heartbeat() == null ? -1 : program(polling.heartbeat().text());
    if (face.equals("plc")) {
      maps.forEach(this::ask);
    } else {
      rig.engine().redirectWrites(cell -> programCells[cell]);
      serve();
    }
    rig.engine().listenTo(this);
  }

  private static List<Point> outputs(Rig rig) {
    return rig.project().controller().points().stream()
        .filter(p -> p.kind() == Kind.OUTPUT)
        .toList();
  }

  private int program(String output) {
    return rig.layout().controller().find(output).index();
  }

  private int field(String output) {
    return rig.layout().field().find(output).index();
  }

  /** Devices at one address share a listener. */
  private void serve() {
    Map<String, List<ModbusMap>> byAddress = new LinkedHashMap<>();
    for (ModbusMap map : maps) {
      byAddress.computeIfAbsent(map.host() + ":" + map.port(), a -> new ArrayList<>()).add(map);
    }
    for (List<ModbusMap> together : byAddress.values()) {
      List<Unit> units =
          together.stream()
              .map(
                  m ->
                      new Unit(
                          m.unit(),
                          MapImage.of(m, rig.layout().field(), writable),
                          rig.writes(),
                          rig.snapshots(),
                          new Identification(m.serving().identification())))
              .toList();
      ModbusMap first = together.get(0);
      servers.add(
          new ModbusServer(
              first.name(), units, first.host(), first.port(), Limits.of(first.serving())));
    }
  }

  private void ask(ModbusMap map) {
    List<Entry> read = new ArrayList<>();
    List<Entry> written = new ArrayList<>();
    for (Entry entry : map.entries()) {
      Symbol symbol = rig.layout().field().find(entry.point().text());
      boolean output = symbol.kind() == Kind.OUTPUT && symbol.name().indexOf('.') < 0;
      (output ? read : written).add(entry);
    }
    RemoteDevice remote =
        new RemoteDevice(
            map.device(),
            map,
            read,
            written,
            rig.layout().field(),
            rig.snapshots(),
            rig.layout().symbols().size());
    asked.add(new Asked(remote, read.stream().mapToInt(e -> program(e.point().text())).toArray()));
  }

  /**
   * Opens it.
   *
   * @throws IOException when an address cannot be had; the message says which
   */
  public void open() throws IOException {
    for (int i = 0; i < servers.size(); i++) {
      try {
        servers.get(i).start();
      } catch (IOException e) {
        throw new IOException(
            "cannot listen for the controller (map field): "
                + e.getMessage()
                + "; end what uses the port, or change `address`",
            e);
      }
    }
    asked.forEach(a -> a.remote.start());
  }

  /** Where it is served, bound ports and all, or whom it asks; a line each. */
  public List<String> places() {
    List<String> lines = new ArrayList<>();
    for (ModbusServer server : servers) {
      lines.add("field: Modbus TCP on " + maps.get(0).host() + ":" + server.port());
    }
    for (ModbusMap map : asked.isEmpty() ? List.<ModbusMap>of() : maps) {
      lines.add(map.name() + ": asks " + map.host() + ":" + map.port() + ", unit " + map.unit());
    }
    return lines;
  }

  @Override
  public void arrive(long[] cells) {
    long micros = rig.project().periodMicros();
    asked.forEach(a -> a.arrive(cells));
    long now = heard();
    silentMicros = now != heard ? 0 : silentMicros + micros;
    heard = now;
    if (heartbeat >= 0) {
      heartbeatSilentMicros =
          cells[heartbeat] == lastHeartbeat ? heartbeatSilentMicros + micros : 0;
      lastHeartbeat = cells[heartbeat];
    }
    boolean was = quiet;
    quiet =
        silentMicros > polling.timeoutMicros() || heartbeatSilentMicros > polling.timeoutMicros();
    quietTimes += quiet && !was ? 1 : 0;
    if (quiet && polling.whenQuiet() == Polling.WhenQuiet.SAFE) {
      for (int i = 0; i < outputs.length; i++) {
        if (outputs[i] != heartbeat) { // or that would look like a beat
          cells[outputs[i]] = safe[i];
        }
      }
    }
  }

  private long heard() {
    long sum = 0;
    for (ModbusServer server : servers) {
      sum += server.cycles().requests();
    }
    for (Asked controller : asked) {
      sum += controller.remote.rounds();
    }
    return sum;
  }

  /** Whether time stands still now; scan thread. */
  public boolean isPaused() {
    return quiet && polling.whenQuiet() == Polling.WhenQuiet.PAUSE && heard() == heard;
  }

  /** Whether the controller is not heard; any thread. */
  public boolean isQuiet() {
    return quiet;
  }

  /** What passed between plant and controller, a line each; after {@link #close}. */
  public List<String> figures() {
    List<String> lines = new ArrayList<>();
    for (ModbusServer server : servers) {
      PollCycles cycles = server.cycles();
      lines.add(
          "controller: %d requests, one and the same each %s ms (median), p99 %s, greatest %s"
              .formatted(
                  cycles.requests(),
                  millis(cycles.nanos().getValueAtPercentile(50)),
                  millis(cycles.nanos().getValueAtPercentile(99)),
                  millis(cycles.nanos().getMaxValue())));
    }
    for (Asked controller : asked) {
      lines.add(
          "controller: %d rounds of questions, %d breaks"
              .formatted(controller.remote.rounds(), controller.remote.breaks()));
    }
    lines.add("controller quiet: " + quietTimes + " times");
    return lines;
  }

  private static String millis(long nanos) {
    return String.format(Locale.ROOT, "%.1f", nanos / 1e6);
  }

  @Override
  public void close() {
    servers.forEach(ModbusServer::close);
    asked.forEach(a -> a.remote.close());
  }
}
