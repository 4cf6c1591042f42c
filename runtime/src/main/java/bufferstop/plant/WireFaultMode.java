package bufferstop.plant;

import bufferstop.model.NearNames;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What can be wrong with a wire. */
enum WireFaultMode {
  /** Stays at a value, or at the one it had at the onset: a jammed sensor, a frozen signal. */
  STUCK(true),
  /** Broken: no current, so FALSE whatever the contact sense, and 0 of a quantity. */
  OPEN(true),
  /** Bridged to the supply: TRUE. */
  SHORT(false),
  /** Wired to the wrong contact. */
  INVERTED(false),
  /** Every change arrives late by a time. */
  DELAY(true),
  /** A loose contact: flips at random, on average once in a time. */
  CHATTER(false);

  private final boolean fitsNumbers;

  WireFaultMode(boolean fitsNumbers) {
    this.fitsNumbers = fitsNumbers;
  }

  /** Whether it can befall a wire that carries a quantity; all can befall a BOOL. */
  boolean fits(boolean bool) {
    return bool || fitsNumbers;
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

  static String question(String word, boolean bool) {
    return NearNames.question(word, words(bool));
  }
}
