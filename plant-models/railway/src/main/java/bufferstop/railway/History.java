package bufferstop.railway;

import java.util.Arrays;

/**
 * Where the trains were, for the train graph: a bounded number of samples, evenly spread over the
 * whole run. When they are full every second one goes and the pace is halved. It is no part of the
 * state: a restored plant begins a new one.
 */
final class History {
  private static final int MOST_SAMPLES = 1200;
  private static final int MOST_VEHICLES = 24;

  final int vehicles;
  private final Line line;
  private final double[][] post; // by vehicle; NaN off the track
  private final long[] blocks; // bit n: block n reports that it is occupied
  private final long[] sensors; // bit n: beam n, then reed n, answers
  private int samples;
  private long every = 1; // steps
  private long firstStep;
  private long next;
  private long stepMicros;

  History(Line line) {
    this.line = line;
    vehicles = Math.min(MOST_VEHICLES, line.stock.count);
    post = new double[vehicles][MOST_SAMPLES];
    blocks = new long[MOST_SAMPLES];
    sensors = new long[MOST_SAMPLES];
  }

  /** Takes the state after a step. */
  void take(long step, long stepMicros) {
    if (samples == 0) {
      firstStep = step;
      next = step;
      this.stepMicros = stepMicros;
    }
    if (step < next) {
      return;
    }
    next += every;
    if (samples == MOST_SAMPLES) {
      thin();
      if ((step - firstStep) % every != 0) {
        next = firstStep + samples * every;
        return;
      }
      next = step + every;
    }
    for (int i = 0; i < vehicles; i++) {
      line.placement.locate(i, 0);
      int segment = line.placement.foundSegment();
      post[i][samples] = line.track.post(segment, line.placement.foundOffset());
    }
    blocks[samples] = blockBits();
    sensors[samples] = sensorBits();
    samples++;
  }

  private void thin() {
    samples /= 2;
    for (int n = 0; n < samples; n++) {
      for (double[] each : post) {
        each[n] = each[2 * n];
      }
      blocks[n] = blocks[2 * n];
      sensors[n] = sensors[2 * n];
    }
    every *= 2;
  }

  private long blockBits() {
    long bits = 0;
    for (int n = 0; n < Math.min(64, line.sensors.blocks.size()); n++) {
      bits |= line.sensors.blocks.get(n).reportsOccupied() ? 1L << n : 0;
    }
    return bits;
  }

  private long sensorBits() {
    long bits = 0;
    int beams = Math.min(32, line.sensors.beams.size());
    for (int n = 0; n < beams; n++) {
      bits |= line.sensors.beams.get(n).reportsBlocked() ? 1L << n : 0;
    }
    for (int n = 0; n < Math.min(32, line.sensors.reeds.size()); n++) {
      bits |= line.sensors.reeds.get(n).on() ? 1L << 32 + n : 0;
    }
    return bits;
  }

  void clear() {
    samples = 0;
    every = 1;
    Arrays.fill(blocks, 0);
  }

  int samples() {
    return samples;
  }

  /** Time of a sample, s. */
  double seconds(int n) {
    return (firstStep + n * every) * stepMicros * 1e-6;
  }

  double post(int vehicle, int n) {
    return post[vehicle][n];
  }

  boolean block(int block, int n) {
    return block < 64 && (blocks[n] >> block & 1) != 0;
  }

  boolean beam(int beam, int n) {
    return beam < 32 && (sensors[n] >> beam & 1) != 0;
  }

  boolean reed(int reed, int n) {
    return reed < 32 && (sensors[n] >> 32 + reed & 1) != 0;
  }
}
