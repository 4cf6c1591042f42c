package bufferstop.rig;

import bufferstop.engine.RealClock;
import bufferstop.engine.ScanFailure;
import bufferstop.engine.ScanLoop;
import bufferstop.engine.ScanStatistics;
import bufferstop.modbus.Credentials;
import bufferstop.modbus.Identification;
import bufferstop.modbus.MapImage;
import bufferstop.modbus.ModbusServer;
import bufferstop.modbus.ModbusServer.Limits;
import bufferstop.modbus.Unit;
import bufferstop.model.ModbusMap;
import bufferstop.model.Serving.Secure;
import bufferstop.plant.PlantFailure;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** A rig in real time, its {@code hmi} map served: what {@code run} runs. */
public final class LiveRun implements AutoCloseable {
  private final Rig rig;
  private final ScanStatistics statistics = new ScanStatistics();
  private final ScanLoop loop;
  private final List<ModbusServer> servers = new ArrayList<>(); // the secure one first
  private volatile boolean stopping;

  /**
   * @param rig fresh from {@link Rig#build}
   */
  public LiveRun(Rig rig) {
    this.rig = rig;
    rig.engine().prepare();
    loop =
        new ScanLoop(
            rig.engine(), new RealClock(rig.project().periodMicros(), statistics), rig.project());
  }

  /**
   * Opens the hmi map, plain and secure as the project wants it.
   *
   * @return the bound port, or 0 when the project has no plain listener
   * @throws IOException when an address cannot be had, or certificates cannot be used; the message
   *     says which
   */
  public int open() throws IOException {
    ModbusMap map = rig.map("hmi");
    if (map == null) {
      return 0;
    }
    List<Unit> units = units(map);
    Limits limits = Limits.of(map.serving());
    Secure secure = map.serving().secure();
    if (secure != null) {
      Credentials credentials = Credentials.load(secure);
      open(
          new ModbusServer("hmi", units, secure.host(), secure.port(), limits, credentials),
          secure.host(),
          secure.port());
    }
    if (map.host().isEmpty()) {
      return 0;
    }
    return open(
        new ModbusServer("hmi", units, map.host(), map.port(), limits), map.host(), map.port());
  }

  private int open(ModbusServer server, String host, int port) throws IOException {
    try {
      server.start();
    } catch (IOException e) {
      throw new IOException(
          "cannot listen on "
              + host
              + ":"
              + port
              + " (map hmi): "
              + e.getMessage()
              + "; end what uses the port, or change `listen`",
          e);
    }
    servers.add(server);
    return server.port();
  }

  /** Every unit behind the listener of a map: its own, which comes first, and the further ones. */
  private List<Unit> units(ModbusMap face) {
    List<Unit> units = new ArrayList<>();
    for (ModbusMap map : rig.maps()) {
      if (map.face().equals(face.name())) {
        units.add(
            new Unit(
                map.unit(),
                MapImage.of(map, rig.layout().field(), rig.writable()),
                rig.writes(),
                rig.snapshots(),
                new Identification(map.serving().identification())));
      }
    }
    return units;
  }

  /** The port of the secure listener, or 0 when there is none; after {@link #open}. */
  public int securePort() {
    return rig.map("hmi") == null || rig.map("hmi").serving().secure() == null
        ? 0
        : servers.get(0).port();
  }

  /**
   * Scans until {@link #stop} is called or the time is up; outputs are safe afterwards, however it
   * ended.
   *
   * @param forMicros 0 for no limit
   * @throws ScanFailure when the scan failed, with the message of a plant that failed
   */
  public void scan(long forMicros) {
    try {
      while (!stopping && !isOver(forMicros)) {
        loop.next();
      }
    } catch (PlantFailure e) {
      throw new ScanFailure(e.getMessage());
    } finally {
      rig.engine().makeSafe();
    }
  }

  private boolean isOver(long forMicros) {
    long next = rig.engine().nowMicros() + rig.project().periodMicros();
    return forMicros > 0 && next >= forMicros;
  }

  /** Asks the scan to end; any thread. */
  public void stop() {
    stopping = true;
  }

  /** Counts for the status line; histograms only after the scan has ended. */
  public ScanStatistics statistics() {
    return statistics;
  }

  @Override
  public void close() {
    servers.forEach(ModbusServer::close);
  }
}
