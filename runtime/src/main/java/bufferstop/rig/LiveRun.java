package bufferstop.rig;

import bufferstop.engine.RealClock;
import bufferstop.engine.ScanFailure;
import bufferstop.engine.ScanLoop;
import bufferstop.engine.ScanStatistics;
import bufferstop.modbus.MapImage;
import bufferstop.modbus.ModbusServer;
import bufferstop.modbus.Unit;
import bufferstop.model.ModbusMap;
import bufferstop.model.Symbol.Kind;
import bufferstop.plant.PlantFailure;
import java.io.IOException;
import java.util.List;

/** A rig in real time, its {@code hmi} map served: what {@code run} runs. */
public final class LiveRun implements AutoCloseable {
  private final Rig rig;
  private final ScanStatistics statistics = new ScanStatistics();
  private final ScanLoop loop;
  private ModbusServer server; // null without an hmi map
  private volatile boolean stopping;

  /**
   * @param rig fresh from {@link Rig#build}
   */
  public LiveRun(Rig rig) {
    this.rig = rig;
    loop =
        new ScanLoop(
            rig.engine(), new RealClock(rig.project().periodMicros(), statistics), rig.project());
  }

  /**
   * Opens the hmi map.
   *
   * @return the bound port, or 0 when the project has no hmi map
   * @throws IOException when the address cannot be had
   */
  public int open() throws IOException {
    ModbusMap map = rig.map("hmi");
    if (map == null) {
      return 0;
    }
    MapImage image =
        MapImage.of(
            map,
            rig.layout().field(),
            rig.project().controller().points().stream()
                .filter(p -> p.kind() == Kind.OPERATOR)
                .toList());
    Unit controller = new Unit(map.unit(), image, rig.writes(), rig.snapshots());
    server =
        new ModbusServer(
            map.name(), List.of(controller), map.host(), map.port(), ModbusServer.Limits.STANDARD);
    server.start();
    return server.port();
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
    if (server != null) {
      server.close();
    }
  }
}
