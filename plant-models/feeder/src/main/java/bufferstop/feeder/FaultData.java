package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.util.Locale;

/**
 * A fault that can be put on a line.
 *
 * @param place share of the line's length from its beginning
 * @param joins conductors: a, b, c, n; of three phases without n each pair is joined
 */
record FaultData(
    String name,
    String line,
    double place,
    String joins,
    double ohms,
    Behaviour behaviour,
    double lastsSeconds,
    double deadSeconds,
    double returnsAfterSeconds,
    long returns,
    Settings at) {

  /** When it goes away. */
  enum Behaviour {
    PERMANENT,
    SELF_CLEARING,
    ARC,
    RETURNING,
    DRAWN
  }

  /**
   * @param deionised time without voltage after which an arc does not come back, when the file does
   *     not give it
   */
  static FaultData read(String name, Settings s, double deionised) {
    return new FaultData(
        name,
        s.text("line"),
        s.number("place"),
        s.text("joins"),
        s.number("resistance"),
        Behaviour.valueOf(s.text("behaviour").toUpperCase(Locale.ROOT)),
        s.number("lasts"),
        s.has("dead_time") ? s.number("dead_time") : deionised,
        s.number("returns_after"),
        s.integer("returns"),
        s);
  }

  /**
   * Time without voltage for an arc's path to recover: 10.5 + U/34.5 cycles, U in kV line to line.
   * Source: lecture notes Power System Protection and Switchgear, lecture 24 [re-read]; below
   * transmission voltages it is extrapolated.
   */
  static double deionisedSeconds(double lineVolts, double hertz) {
    return (10.5 + lineVolts / 34_500) / hertz;
  }

  private boolean earthed() {
    return joins.endsWith("n");
  }

  private int phases() {
    return joins.length() - (earthed() ? 1 : 0);
  }

  int arms() {
    return earthed() ? phases() : phases() == 2 ? 1 : 3;
  }

  int from(int arm) {
    return joins.charAt(earthed() || phases() == 3 ? arm : 0) - 'a';
  }

  int to(int arm) {
    if (earthed()) {
      return -1;
    }
    return joins.charAt(phases() == 2 ? 1 : (arm + 1) % 3) - 'a';
  }
}
