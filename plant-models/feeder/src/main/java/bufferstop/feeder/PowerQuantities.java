package bufferstop.feeder;

/**
 * Power quantities of one phase from the spectra of its voltage and current, by IEEE Std 1459-2010,
 * clause 3.1.2 [title and abstract read; clause numbers seen second-hand]. Angles are those of the
 * phasors; reactive power is positive when the current lags.
 */
final class PowerQuantities {
  private double v1;
  private double i1;
  private double vSquares; // of harmonics
  private double iSquares;
  private double p1;
  private double q1;
  private double ph;

  /** Begins with the fundamental phasors, rms. */
  void fundamental(double vRe, double vIm, double iRe, double iIm) {
    v1 = Math.sqrt(vRe * vRe + vIm * vIm);
    i1 = Math.sqrt(iRe * iRe + iIm * iIm);
    p1 = vRe * iRe + vIm * iIm;
    q1 = vIm * iRe - vRe * iIm;
    vSquares = 0;
    iSquares = 0;
    ph = 0;
  }

  /** Adds the phasors of one harmonic. */
  void harmonic(double vRe, double vIm, double iRe, double iIm) {
    vSquares += vRe * vRe + vIm * vIm;
    iSquares += iRe * iRe + iIm * iIm;
    ph += vRe * iRe + vIm * iIm;
  }

  /** rms voltage. */
  double v() {
    return Math.sqrt(v1 * v1 + vSquares);
  }

  double v1() {
    return v1;
  }

  double vh() {
    return Math.sqrt(vSquares);
  }

  /** rms current. */
  double i() {
    return Math.sqrt(i1 * i1 + iSquares);
  }

  double i1() {
    return i1;
  }

  double ih() {
    return Math.sqrt(iSquares);
  }

  double thdV() {
    return v1 > 0 ? vh() / v1 : 0;
  }

  double thdI() {
    return i1 > 0 ? ih() / i1 : 0;
  }

  /** Active power, W. */
  double p() {
    return p1 + ph;
  }

  /** Fundamental active power, W. */
  double p1() {
    return p1;
  }

  /** Harmonic active power, W. */
  double ph() {
    return ph;
  }

  /** Fundamental reactive power, var. */
  double q1() {
    return q1;
  }

  /** Apparent power, VA. */
  double s() {
    return v() * i();
  }

  /** Fundamental apparent power, VA. */
  double s1() {
    return v1 * i1;
  }

  /** Non-fundamental apparent power, VA. */
  double sn() {
    return Math.sqrt(di() * di() + dv() * dv() + sh() * sh());
  }

  /** Current distortion power, var. */
  double di() {
    return v1 * ih();
  }

  /** Voltage distortion power, var. */
  double dv() {
    return vh() * i1;
  }

  /** Harmonic apparent power, VA. */
  double sh() {
    return vh() * ih();
  }

  /** Harmonic distortion power, var. */
  double dh() {
    return Math.sqrt(Math.max(0, sh() * sh() - ph * ph));
  }

  /** Non-active power, var. */
  double n() {
    return Math.sqrt(Math.max(0, s() * s() - p() * p()));
  }

  /** Displacement power factor. */
  double pf1() {
    return s1() > 0 ? p1 / s1() : 1;
  }

  /** True power factor. */
  double pf() {
    return s() > 0 ? p() / s() : 1;
  }
}
