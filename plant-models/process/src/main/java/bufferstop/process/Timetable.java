package bufferstop.process;

import bufferstop.process.TimetableModel.Row;
import bufferstop.spi.Plant;
import bufferstop.spi.Port;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** A table over the week; the values after a step are those that hold from its end on. */
final class Timetable implements Plant {
  private static final int DAY = 1440; // minutes
  private static final int WEEK = 7 * DAY;
  private static final long MINUTE_MICROS = 60_000_000;

  private final List<Port> outputs = new ArrayList<>();
  private final int[] minutes; // of the week, rising, the first 0
  private final double[][] values; // from each of them on
  private final long startMicros;
  private boolean running;
  private long steps;
  private long stepMicros;

  /**
   * @param rows every day has one at its minute 0
   * @param start minute of the week at time zero
   */
  Timetable(String[] columns, List<Row> rows, int start) {
    for (String column : columns) {
      outputs.add(Port.quantity(column, "", "By the time of day"));
    }
    List<Row> sorted = new ArrayList<>(rows);
    sorted.sort(Comparator.comparingInt(Row::minute));
    List<Integer> at = new ArrayList<>();
    List<double[]> all = new ArrayList<>();
    for (int day = 0; day < 7; day++) {
      for (Row row : sorted) {
        if (row.belongsTo(day)) {
          at.add(day * DAY + row.minute());
          all.add(row.values());
        }
      }
    }
    minutes = at.stream().mapToInt(Integer::intValue).toArray();
    values = all.toArray(double[][]::new);
    startMicros = start * MINUTE_MICROS;
  }

  @Override
  public List<Port> inputs() {
    return List.of();
  }

  @Override
  public List<Port> outputs() {
    return List.copyOf(outputs);
  }

  @Override
  public void start(double[] out) {
    if (running) {
      throw new IllegalStateException("start called while the plant is running");
    }
    running = true;
    show(out);
  }

  @Override
  public void step(long stepMicros, double[] in, double[] out) {
    if (!running) {
      throw new IllegalStateException("step called while the plant is not started");
    }
    if (steps == 0) {
      this.stepMicros = stepMicros;
    }
    if (stepMicros <= 0 || stepMicros != this.stepMicros) {
      throw new IllegalArgumentException(
          "step of " + stepMicros + " us after steps of " + this.stepMicros + " us");
    }
    steps++;
    show(out);
  }

  private void show(double[] out) {
    long now = (startMicros + steps * stepMicros) / MINUTE_MICROS % WEEK;
    int row = minutes.length - 1;
    while (minutes[row] > now) {
      row--;
    }
    System.arraycopy(values[row], 0, out, 0, out.length);
  }

  @Override
  public void save(DataOutput to) throws IOException {
    if (!running) {
      throw new IllegalStateException("save called while the plant is not started");
    }
    to.writeLong(steps);
    to.writeLong(stepMicros);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    steps = from.readLong();
    stepMicros = from.readLong();
    running = true;
  }
}
