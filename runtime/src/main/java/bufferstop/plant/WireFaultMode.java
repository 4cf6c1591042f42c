package bufferstop.plant;

import bufferstop.spi.RandomStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What can be wrong with a wire. */
enum WireFaultMode {
  /** Stays at a value, or at the one it had at the onset: a jammed sensor, a frozen signal. */
  STUCK(Fits.ANY, Needs.MAY_HAVE_VALUE) {
    @Override
    WireFault make(Parameters p) {
      return Double.isNaN(p.value) ? WireFault.frozen() : WireFault.constant(p.value);
    }
  },
  /** Broken: no current, so FALSE whatever the contact sense, and 0 of a quantity. */
  OPEN(Fits.ANY, Needs.NOTHING) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.constant(0);
    }
  },
  /** Bridged to the supply: TRUE. */
  SHORT(Fits.BOOL, Needs.NOTHING) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.constant(1);
    }
  },
  /** Wired to the wrong contact. */
  INVERTED(Fits.BOOL, Needs.NOTHING) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.inverted();
    }
  },
  /** A loose contact: flips at random, on average once in a time. */
  CHATTER(Fits.BOOL, Needs.TIME) {
    @Override
    WireFault make(Parameters p) {
      double every = p.micros == 0 ? 3_000 : p.micros;
      return WireFault.chatter(Math.min(1.0, p.stepMicros / every), p.random);
    }
  },
  /** Every change arrives late by a time. */
  DELAY(Fits.ANY, Needs.TIME) {
    @Override
    WireFault make(Parameters p) {
      long by = p.micros == 0 ? 100_000 : p.micros;
      return WireFault.delay((int) ((by + p.stepMicros - 1) / p.stepMicros));
    }
  },
  /** Pulses are lost whole, each with a chance: a reed too fast for its magnet. */
  MISSED(Fits.BOOL, Needs.CHANCE) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.missed(Double.isNaN(p.value) ? 0.5 : p.value, p.random);
    }
  },
  /** A relay or contactor whose contact does not open once it has closed. */
  WELDED(Fits.BOOL, Needs.NOTHING) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.welded();
    }
  },
  /** A relay or contactor whose contact does not close once it has opened. */
  NOT_CLOSING(Fits.BOOL, Needs.NOTHING) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.notClosing();
    }
  },
  /** A transmitter that reads more and more beside the truth, by so much a second. */
  DRIFT(Fits.NUMBER, Needs.VALUE) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.drift(p.value * p.stepMicros / 1e6);
    }
  },
  /** Interference: up to so much beside the truth, anew in every step. */
  NOISE(Fits.NUMBER, Needs.VALUE) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.noise(p.value, p.random);
    }
  },
  /** A transmitter set to another range: the truth times a factor. */
  WRONG_SCALE(Fits.NUMBER, Needs.VALUE) {
    @Override
    WireFault make(Parameters p) {
      return WireFault.wrongScale(p.value);
    }
  };

  /** The wires a mode can befall. */
  private enum Fits {
    ANY,
    BOOL,
    NUMBER
  }

  /** What a fault of this mode may or must say besides. */
  enum Needs {
    NOTHING,
    MAY_HAVE_VALUE,
    VALUE,
    CHANCE,
    TIME
  }

  /**
   * What a fault says, and what its wire brings along.
   *
   * @param value NaN when not given
   * @param micros 0 when not given
   */
  record Parameters(double value, long micros, long stepMicros, RandomStream random) {}

  private final Fits fits;
  private final Needs needs;

  WireFaultMode(Fits fits, Needs needs) {
    this.fits = fits;
    this.needs = needs;
  }

  /** The fault, ready to begin. */
  abstract WireFault make(Parameters parameters);

  /** What stands for a value that a hand at a panel does not give; NaN where none is needed. */
  double usualValue() {
    return needs != Needs.VALUE ? Double.NaN : this == WRONG_SCALE ? 2.0 : 1.0;
  }

  Needs needs() {
    return needs;
  }

  /** Whether it can befall a wire that carries a BOOL, or else a quantity. */
  boolean fits(boolean bool) {
    return fits == Fits.ANY || (fits == Fits.BOOL) == bool;
  }

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static List<String> words(boolean bool) {
    List<String> words = new ArrayList<>();
    for (WireFaultMode mode : values()) {
      if (mode.fits(bool)) {
        words.add(mode.word());
      }
    }
    return words;
  }

  /** The mode of that word, or null. */
  static WireFaultMode named(String word) {
    for (WireFaultMode mode : values()) {
      if (mode.word().equalsIgnoreCase(word)) {
        return mode;
      }
    }
    return null;
  }
}
