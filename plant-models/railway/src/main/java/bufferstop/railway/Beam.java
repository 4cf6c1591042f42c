package bufferstop.railway;

import bufferstop.railway.LineData.BeamData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A through-beam across the track with hysteresis in the covered share of its width (reference 6.1,
 * F6.1) and a response time: a change shorter than that is not reported. It is looked at once a
 * step.
 */
final class Beam {
  final BeamData data;
  private final Train train;
  private boolean blocked; // what the optics see
  private boolean reported; // what the output says
  private long sinceMicros; // when the optics last changed

  Beam(BeamData data, Train train) {
    this.data = data;
    this.train = train;
  }

  void start() {
    look();
    reported = blocked;
  }

  void step(long nowMicros) {
    boolean before = blocked;
    look();
    if (blocked != before) {
      sinceMicros = nowMicros;
    }
    long delay = blocked ? data.onMicros() : data.offMicros();
    if (nowMicros - sinceMicros >= delay) {
      reported = blocked;
    }
  }

  private void look() {
    double low = data.positionMetres() - data.widthMetres() / 2;
    double high = data.positionMetres() + data.widthMetres() / 2;
    double covered = 0;
    for (int i = 0; i < train.count; i++) {
      covered += train.cover(i, low, high);
    }
    double share = covered / data.widthMetres();
    blocked = blocked ? share > data.clearShare() : share >= data.blockedShare();
  }

  /** Value of its output. */
  boolean on() {
    return reported == data.dark();
  }

  boolean reportsBlocked() {
    return reported;
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(blocked);
    to.writeBoolean(reported);
    to.writeLong(sinceMicros);
  }

  void restore(DataInput from) throws IOException {
    blocked = from.readBoolean();
    reported = from.readBoolean();
    sinceMicros = from.readLong();
  }
}
