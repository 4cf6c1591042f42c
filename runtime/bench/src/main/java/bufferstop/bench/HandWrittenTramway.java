package bufferstop.bench;

/**
 * The brickworks closed loop as somebody would write it by hand for this one rig: the same motor,
 * friction, hopper, tipping, beams, reeds, delays and input filters every millisecond, the same
 * haul and its trips every 10 ms, in plain fields. What the product has besides is left out: faults
 * of wires, forces, manual mode, the remote rack, alarms, the trace, Modbus, couplings that
 * rebound, slip, saved state. It is a baseline for cost, not an oracle.
 */
final class HandWrittenTramway {
  private static final double H = 0.001;
  private static final double G = 9.80665;
  private static final double K = 0.0103132403 * 14 / 0.0055;
  private static final double OHMS = 20;
  private static final double FRICTION = 6.18794419e-4 * 14 / 0.0055;
  private static final double ROTOR = 5e-7 * 14 * 14 / (0.0055 * 0.0055);
  private static final double[] BEAM = {0.730, 2.600, 2.460, 0.300, 0.520, 0.575, 4.400};
  private static final int INPUTS = 20;
  private static final int FILTER = 3;

  private double loco = 2.68;
  private double tub = 2.50;
  private double v;
  private double tubV;
  private boolean coupled = true;
  private double load;
  private double stock = 2;
  private double gate;
  private double received;

  private final boolean[] blocked = new boolean[BEAM.length];
  private final boolean[] reported = new boolean[BEAM.length];
  private final boolean[] seen = new boolean[BEAM.length];
  private final boolean[] raw = new boolean[INPUTS];
  private final boolean[] candidate = new boolean[INPUTS];
  private final boolean[] input = new boolean[INPUTS];
  private final int[] held = new int[INPUTS];

  private boolean traction;
  private boolean toPit;
  private boolean hopper;
  private boolean tip;
  private boolean lift;
  private int step;
  private int timeInStep;
  private boolean tripped;
  private int hauls;

  /** Runs so many scans of 10 ms; returns how many loads were hauled. */
  int run(int scans) {
    for (int scan = 0; scan < scans; scan++) {
      control();
      for (int i = 0; i < 10; i++) {
        load();
        move();
        look();
        filter();
      }
    }
    return hauls + (received > 1e9 ? 1 : 0);
  }

  private void load() {
    double before = gate;
    gate = hopper ? Math.min(1, gate + H / 0.2) : Math.max(0, gate - H / 0.2);
    double kg = Math.min(stock, 0.01 * (before + gate) / 2 * H);
    stock -= kg;
    double over = Math.max(0, Math.min(tub + 0.06, 0.615) - Math.max(tub - 0.06, 0.585));
    load += Math.max(0, Math.min(kg * over / 0.03, 0.10 - load));
    if (tip && tub >= 2.43 && tub <= 2.57) {
      double out = Math.min(load, 0.02 * H);
      load -= out;
      received += out;
    }
  }

  private void move() {
    if (lift && coupled && v == 0 && Math.abs((loco + tub) / 2 - 2.565) < 0.1) {
      coupled = false;
    }
    double kg = 0.35 + (coupled ? 0.15 + load : 0);
    double volts = toPit ? -12 : 12;
    boolean conducts = traction && (volts - K * v) * volts > 0;
    double force = conducts ? K * (volts - K * v) / OHMS : 0;
    double slope = conducts ? K * K / OHMS : 0;
    double limit = 0.03 * kg * G;
    if (v == 0 && Math.abs(force) <= FRICTION + limit) {
      return;
    }
    double d = v != 0 ? Math.signum(v) : Math.signum(force);
    double a = (force - d * (FRICTION + limit)) / (kg + ROTOR + slope * H / 2);
    double next = v + a * H;
    if (v * next < 0) {
      next = 0;
    }
    loco += (v + next) / 2 * H;
    v = next;
    if (coupled) {
      tub = loco - 0.18;
      tubV = v;
    } else if (loco - tub <= 0.18 && v < 0) {
      v = v * 0.35 / (0.5 + load);
      coupled = true;
    }
  }

  private void look() {
    for (int i = 0; i < BEAM.length; i++) {
      double low = BEAM[i] - 0.0025;
      double high = BEAM[i] + 0.0025;
      double covered =
          Math.max(0, Math.min(loco + 0.11, high) - Math.max(loco - 0.11, low))
              + Math.max(0, Math.min(tub + 0.06, high) - Math.max(tub - 0.06, low));
      double share = covered / 0.005;
      boolean now = blocked[i] ? share > 0.4 : share >= 0.6;
      reported[i] = now == seen[i] ? now : reported[i];
      seen[i] = now;
      blocked[i] = now;
      raw[i] = reported[i];
    }
    raw[7] = Math.abs(loco - 4.79) <= 0.012;
    raw[8] = Math.abs(loco - 0.64) <= 0.012;
    raw[9] = traction;
    for (int i = 10; i < INPUTS; i++) {
      raw[i] = true;
    }
  }

  private void filter() {
    for (int i = 0; i < INPUTS; i++) {
      if (raw[i] != candidate[i]) {
        candidate[i] = raw[i];
        held[i] = 0;
      }
      if (++held[i] >= FILTER) {
        input[i] = candidate[i];
      }
    }
  }

  private void control() {
    timeInStep++;
    tripped |= input[7] && step != 9 || !input[10] || !input[11] || !input[12] || !input[13];
    tripped |= input[9] && !traction && timeInStep > 20;
    tripped |= timeInStep > 900 || step == 8 && timeInStep > 150 && !input[2];
    int next = tripped ? 0 : next();
    if (next != step) {
      step = next;
      timeInStep = 0;
      hauls += step == 5 ? 1 : 0;
    }
    traction = (step == 1 || step == 4 || step == 8 || step == 10) && !tripped;
    toPit = step == 1 || step == 10;
    hopper = step == 3 && input[5];
    tip = step == 6;
    lift = step == 7;
  }

  private int next() {
    return switch (step) {
      case 0 -> 1;
      case 1 -> input[0] ? 2 : 1;
      case 2 -> timeInStep >= 120 ? 3 : 2;
      case 3 -> timeInStep >= 600 ? 4 : 3;
      case 4 -> input[1] ? 5 : 4;
      case 5 -> timeInStep >= 150 ? 6 : 5;
      case 6 -> timeInStep >= 600 ? 7 : 6;
      case 7 -> timeInStep >= 100 ? 8 : 7;
      case 8 -> input[6] ? 9 : 8;
      case 9 -> timeInStep >= 300 ? 10 : 9;
      case 10 -> input[1] ? 11 : 10;
      default -> timeInStep >= 200 ? 1 : 11;
    };
  }

  /** Speed of the tub, so that nothing is optimised away. */
  double tubSpeed() {
    return tubV;
  }
}
