package bufferstop.railway;

import bufferstop.railway.LineData.DischargeData;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** A place where wagons are tipped. Every wagon whose middle stands within it empties at a rate. */
final class Discharge {
  private final DischargeData data;
  private final Train train;
  private double receivedKg;

  Discharge(DischargeData data, Train train) {
    this.data = data;
    this.train = train;
  }

  void step(double seconds, boolean tip) {
    for (int i = 0; i < train.count && tip; i++) {
      if (data.fromMetres() <= train.x[i] && train.x[i] <= data.toMetres()) {
        double kg = Math.min(train.loadKg[i], data.kgPerSecond() * seconds);
        train.loadKg[i] -= kg;
        receivedKg += kg;
      }
    }
  }

  double receivedKg() {
    return receivedKg;
  }

  DischargeData data() {
    return data;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(receivedKg);
  }

  void restore(DataInput from) throws IOException {
    receivedKg = from.readDouble();
  }
}
