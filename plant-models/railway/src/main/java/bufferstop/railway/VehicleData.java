package bufferstop.railway;

import bufferstop.railway.TrackData.Place;
import bufferstop.spi.Settings;

/**
 * One vehicle.
 *
 * @param start place of its middle; null when it stands behind another, or in doubt
 * @param behind number of the vehicle it stands behind, coupled; -1 when it has a start
 * @param coupledInFront coupled at its front to the vehicle there
 * @param facing +1 when its front points to the high end of its segment, else -1
 * @param axleOhms of each axle, infinite when it does not conduct
 * @param magnetMetres magnet from its middle towards its front; NaN when it has none
 * @param loco null for a wagon
 */
record VehicleData(
    String name,
    double lengthMetres,
    double wheelbaseMetres,
    int axles,
    double tareKg,
    double capacityKg,
    double loadKg,
    Resistance resistance,
    double brakeNewtons,
    Place start,
    int behind,
    double startSpeed,
    boolean coupledInFront,
    int facing,
    double axleOhms,
    double magnetMetres,
    LocoData loco,
    Settings at) {

  /**
   * Rolling resistance: R = share m g + perTonne m/t + perAxle n + perTonneSpeed v m/t + bySquare
   * v², N. Form and units of the last four: W. J. Davis's formula in SI units (reference 1.1).
   */
  record Resistance(
      double share, double perTonne, double perAxle, double perTonneSpeed, double bySquare) {

    /** The part that does not depend on speed, N. */
    double constantNewtons(double kg, int axles) {
      return share * kg * Stock.GRAVITY + perTonne * kg / 1000 + perAxle * axles;
    }

    /** The part that does, N, for a speed in m/s. */
    double movingNewtons(double kg, double speed) {
      return (perTonneSpeed * kg / 1000 + bySquare * Math.abs(speed)) * speed;
    }

    /** How much that grows with speed, N s/m. */
    double slope(double kg, double speed) {
      return perTonneSpeed * kg / 1000 + 2 * bySquare * Math.abs(speed);
    }
  }

  /**
   * What makes a vehicle a locomotive.
   *
   * @param uncouplesAbove track voltage that opens its couplers; 0: none
   */
  record LocoData(
      double adhesion,
      boolean adhesionBySpeed,
      double drivenShare,
      TractionData traction,
      double uncouplesAbove,
      boolean remoteUncoupling) {}

  /** A kind of traction. */
  sealed interface TractionData permits Motor, SeriesData, DriveData {}

  /** A series motor on alternating current, at its shaft; with its reverser. */
  record SeriesData(
      double ohms,
      double reactanceOhms,
      double constantHenries,
      double gear,
      double wheelRadiusMetres,
      double frictionTorque,
      double rotorInertia,
      ReverserData reverser)
      implements TractionData {

    /** Turns of the motor for each radian over the rim, G / r. */
    double toRim() {
      return gear / wheelRadiusMetres;
    }

    double frictionNewtons() {
      return frictionTorque * toRim();
    }

    double addedKg() {
      return rotorInertia * toRim() * toRim();
    }
  }

  /**
   * A sequence reverser.
   *
   * @param resetsAfterMicros 0: never
   * @param start number of the state, 0 forward to 3 second neutral
   */
  record ReverserData(long stepsAfterMicros, long resetsAfterMicros, int start, boolean locked) {}

  /** A full-size drive. */
  record DriveData(
      double effortNewtons,
      double watts,
      double efficiency,
      boolean electric,
      double rotatingShare,
      DriverData driver)
      implements TractionData {}

  /** Somebody who drives; {@code marginMetres} before a signal is where the train would stop. */
  record DriverData(double speed, double braking, double marginMetres) {}
}
