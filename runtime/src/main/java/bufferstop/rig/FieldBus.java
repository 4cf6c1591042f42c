package bufferstop.rig;

import bufferstop.engine.Engine;
import bufferstop.image.Layout;
import bufferstop.modbus.RemoteDevice;
import bufferstop.model.Field;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.plant.RealInput;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Predicate;

/**
 * The real field of a run: its devices, each asked by a thread of its own. The scan takes what has
 * arrived and never waits; whether a device is there it judges by its own periods.
 */
public final class FieldBus implements Engine.Arrivals, AutoCloseable {
  private final Rig rig;
  private final List<Device> devices = new ArrayList<>();

  /** One device, as the scan sees it. */
  private static final class Device {
    final RemoteDevice remote;
    final RealInput[] inputs; // by the order in which they are asked for
    final int[] rows; // with which each is read
    final long[] arrived;
    final long[] counted; // rounds of each row, then whole rounds, as last seen
    final long[] silentMicros; // likewise
    final List<String> outputs;
    final int okCell;
    long publication = -1;

    Device(RemoteDevice remote, RealInput[] inputs, int[] rows, List<String> outputs, int okCell) {
      this.remote = remote;
      this.inputs = inputs;
      this.rows = rows;
      this.outputs = outputs;
      this.okCell = okCell;
      arrived = new long[remote.width()];
      counted = new long[remote.rows() + 1];
      silentMicros = new long[counted.length];
      Arrays.fill(silentMicros, Long.MAX_VALUE / 2); // not there before its first answer
    }

    void arrive(long[] cells, long periodMicros) {
      publication = remote.arrive(publication, arrived);
      for (int i = 0; i < counted.length; i++) {
        long count = arrived[inputs.length + i];
        silentMicros[i] = count != counted[i] ? 0 : silentMicros[i] + periodMicros;
        counted[i] = count;
      }
      for (int i = 0; i < inputs.length; i++) {
        boolean good = !isLost(rows[i]);
        inputs[i].trust(good);
        if (good) {
          inputs[i].bring(arrived[i]);
        } else if (remote.polling().onLoss() == Field.OnLoss.SAFE) {
          inputs[i].bring(0);
        }
      }
      cells[okCell] = isLost(counted.length - 1) ? 0 : 1;
    }

    private boolean isLost(int row) {
      return silentMicros[row] > remote.polling().timeoutMicros();
    }
  }

  /**
   * Puts the devices of the map {@code field} together; none is asked yet.
   *
   * @param rig fresh from {@link Rig#build}
   * @param real whether an input or output of that name is real; others are left to the plant, or
   *     have the values of nothing
   */
  public FieldBus(Rig rig, Predicate<String> real) {
    this.rig = rig;
    for (ModbusMap map : rig.maps()) {
      if (map.face().equals("field") && !map.isFaultPanel()) {
        device(map, real);
      }
    }
    rig.engine().listenTo(this);
  }

  private void device(ModbusMap map, Predicate<String> real) {
    Layout layout = rig.layout();
    List<Entry> read = new ArrayList<>();
    List<Entry> written = new ArrayList<>();
    for (Entry entry : map.entries()) {
      Symbol symbol = layout.field().find(entry.point().text());
      boolean plain = symbol.name().indexOf('.') < 0 && real.test(symbol.name());
      if (plain && symbol.kind() == Kind.INPUT) {
        read.add(entry);
      } else if (plain && symbol.kind() == Kind.OUTPUT) {
        written.add(entry);
      }
    }
    if (read.isEmpty() && written.isEmpty()) {
      return;
    }
    RemoteDevice remote =
        new RemoteDevice(
            map.device(),
            map,
            read,
            written,
            layout.field(),
            rig.snapshots(),
            layout.symbols().size());
    RealInput[] inputs =
        read.stream()
            .map(e -> rig.field().realInput(layout.field().find(e.point().text()).index()))
            .toArray(RealInput[]::new);
    for (RealInput input : inputs) {
      input.use(true);
    }
    rig.field().leaveNode(map.device());
    devices.add(
        new Device(
            remote,
            inputs,
            read.stream().mapToInt(remote::rowOf).toArray(),
            written.stream().map(e -> e.point().text()).toList(),
            layout.field().find("nodes." + map.device() + ".ok").index()));
  }

  /** Begins to ask; waits a little for first answers, since an input is nothing before. */
  public void start() {
    devices.forEach(d -> d.remote.start());
    long longest =
        devices.stream().mapToLong(d -> d.remote.polling().timeoutMicros()).max().orElse(0);
    long deadline = System.nanoTime() + TimeUnit.MICROSECONDS.toNanos(longest);
    while (devices.stream().anyMatch(d -> d.remote.arrivals().published() < 0)
        && System.nanoTime() - deadline < 0) {
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(1));
    }
  }

  @Override
  public void arrive(long[] cells) {
    for (Device device : devices) {
      device.arrive(cells, rig.project().periodMicros());
    }
  }

  /** The outputs that are real, a device after the other. */
  public List<String> outputs() {
    return devices.stream().flatMap(d -> d.outputs.stream()).toList();
  }

  /** Real outputs whose device does not make them safe by itself when nobody writes. */
  public List<String> unwatched() {
    return devices.stream()
        .filter(d -> d.remote.polling().watchdogMicros() == 0)
        .flatMap(d -> d.outputs.stream())
        .toList();
  }

  /** What the devices have done, a line each. */
  public List<String> figures() {
    return devices.stream()
        .map(
            d ->
                "device %s: %d rounds, %d breaks%s"
                    .formatted(
                        d.remote.name(),
                        d.remote.rounds(),
                        d.remote.breaks(),
                        d.remote.trouble().isEmpty() ? "" : "; " + d.remote.trouble()))
        .toList();
  }

  /**
   * Waits until every device has the outputs of the last publication.
   *
   * @return outputs whose device did not acknowledge them in time
   */
  public List<String> awaitSafe() {
    List<String> without = new ArrayList<>();
    for (Device device : devices) {
      long nanos =
          TimeUnit.MICROSECONDS.toNanos(
              device.remote.polling().answerMicros() + device.remote.polling().timeoutMicros());
      if (!device.remote.awaitAcknowledged(rig.snapshots().published(), nanos)) {
        without.addAll(device.outputs);
      }
    }
    return without;
  }

  @Override
  public void close() {
    devices.forEach(d -> d.remote.close());
  }
}
