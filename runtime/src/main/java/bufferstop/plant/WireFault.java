package bufferstop.plant;

import bufferstop.spi.RandomStream;
import java.util.Arrays;

/** What a fault does to the value on a wire, one plant step after the other. BOOL is 0 or 1. */
abstract class WireFault {

  /**
   * Called at the onset.
   *
   * @param last what arrived in the step before
   */
  void begin(double last) {}

  /** What arrives when {@code value} enters the wire; called once a step. */
  abstract double apply(double value);

  private static double not(double value) {
    return value != 0 ? 0 : 1;
  }

  /** Whatever enters, this arrives. */
  static WireFault constant(double arrives) {
    return new WireFault() {
      @Override
      double apply(double value) {
        return arrives;
      }
    };
  }

  /** What arrived at the onset goes on arriving. */
  static WireFault frozen() {
    return new WireFault() {
      private double held;

      @Override
      void begin(double last) {
        held = last;
      }

      @Override
      double apply(double value) {
        return held;
      }
    };
  }

  /** The opposite arrives. */
  static WireFault inverted() {
    return new WireFault() {
      @Override
      double apply(double value) {
        return not(value);
      }
    };
  }

  /** Every change arrives {@code steps} steps late. */
  static WireFault delay(int steps) {
    return new WireFault() {
      private final double[] line = new double[Math.max(1, steps)];
      private int at;

      @Override
      void begin(double last) {
        Arrays.fill(line, last);
        at = 0;
      }

      @Override
      double apply(double value) {
        double arrives = line[at];
        line[at] = value;
        at = (at + 1) % line.length;
        return arrives;
      }
    };
  }

  /**
   * A loose contact: with this chance in every step it begins or ceases to deliver the opposite.
   */
  static WireFault chatter(double chance, RandomStream random) {
    return new WireFault() {
      private boolean flipped;

      @Override
      void begin(double last) {
        flipped = false;
      }

      @Override
      double apply(double value) {
        flipped ^= random.nextDouble() < chance;
        return flipped ? not(value) : value;
      }
    };
  }

  /** Each pulse is lost whole with this chance. */
  static WireFault missed(double chance, RandomStream random) {
    return new WireFault() {
      private boolean was;
      private boolean lost;

      @Override
      void begin(double last) {
        was = last != 0;
        lost = false;
      }

      @Override
      double apply(double value) {
        boolean is = value != 0;
        if (is && !was) {
          lost = random.nextDouble() < chance;
        }
        was = is;
        return is && !lost ? 1 : 0;
      }
    };
  }

  /** A contact that, once closed, does not open again. */
  static WireFault welded() {
    return new WireFault() {
      private boolean closed;

      @Override
      void begin(double last) {
        closed = last != 0;
      }

      @Override
      double apply(double value) {
        closed |= value != 0;
        return closed ? 1 : 0;
      }
    };
  }

  /** A contact that opens but does not close again. */
  static WireFault notClosing() {
    return new WireFault() {
      private boolean closed;

      @Override
      void begin(double last) {
        closed = last != 0;
      }

      @Override
      double apply(double value) {
        closed &= value != 0;
        return closed ? 1 : 0;
      }
    };
  }

  /** Reads more and more beside the truth: by so much more in every step. */
  static WireFault drift(double perStep) {
    return new WireFault() {
      private long steps;

      @Override
      void begin(double last) {
        steps = 0;
      }

      @Override
      double apply(double value) {
        return value + ++steps * perStep;
      }
    };
  }

  /** Reads beside the truth by up to so much, evenly spread, anew in every step. */
  static WireFault noise(double amplitude, RandomStream random) {
    return new WireFault() {
      @Override
      double apply(double value) {
        return value + amplitude * (2 * random.nextDouble() - 1);
      }
    };
  }

  /** Reads the truth times a factor. */
  static WireFault wrongScale(double factor) {
    return new WireFault() {
      @Override
      double apply(double value) {
        return value * factor;
      }
    };
  }
}
