package bufferstop.railway;

import java.util.Arrays;

/**
 * What holds every vehicle back or pulls it down a slope, worked out once a step from where it
 * stands and what it weighs: friction that does not depend on speed, drag that does, gravity.
 */
final class Resistance {
  private static final double DERAILED_SHARE = 0.5; // of the weight, project choice

  final double[] kg;
  final double[] friction; // N, against motion
  final double[] slope; // mean rise over length along the row
  final double[] slopeChange; // for each metre along the row
  private final Stock stock;
  private final Brakes brakes;
  private final Track track;

  Resistance(Stock stock, Brakes brakes) {
    this.stock = stock;
    this.brakes = brakes;
    track = stock.placement.track;
    kg = new double[stock.count];
    friction = new double[stock.count];
    slope = new double[stock.count];
    slopeChange = new double[stock.count];
  }

  /** Works out all of it for the coming step, by place. */
  void prepare() {
    Arrays.fill(stock.moved, 0);
    for (int k = 0; k < stock.count; k++) {
      int i = stock.who[k];
      VehicleData data = stock.data.get(i);
      double mass = stock.kg(k);
      kg[k] = mass;
      double newtons = data.resistance().constantNewtons(mass, data.axles());
      if (track.curved) {
        newtons +=
            track.data.curveResistanceMetres()
                * mass
                * Stock.GRAVITY
                * stock.placement.curvature(i);
      }
      if (stock.derailed[i]) {
        newtons += DERAILED_SHARE * mass * Stock.GRAVITY;
      }
      friction[k] = newtons + brakes.newtons(i, mass);
      if (track.graded) {
        slope[k] = stock.placement.gradient(i) * stock.facing[k];
        slopeChange[k] = stock.placement.gradientChange(i);
      }
    }
  }

  /** Gravity along the row in N, {@code ahead} metres from where the step began. */
  double gravity(int k, double ahead) {
    return track.graded ? -kg[k] * Stock.GRAVITY * (slope[k] + slopeChange[k] * ahead) : 0;
  }

  /** Drag in N at a speed; its sign is the speed's. */
  double drag(int k, double speed) {
    return stock.data.get(stock.who[k]).resistance().movingNewtons(kg[k], speed);
  }

  double dragSlope(int k, double speed) {
    return stock.data.get(stock.who[k]).resistance().slope(kg[k], speed);
  }
}
