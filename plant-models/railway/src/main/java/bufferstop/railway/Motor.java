package bufferstop.railway;

/**
 * A permanent-magnet DC motor geared to the rail, efficiency 1; inductance and viscous friction may
 * be 0. Seen at the wheel rim it is a force per ampere, the same number of volts per m/s, a
 * friction force and an added mass (reference F3.1 to F3.5, derived).
 */
record Motor(
    double ohms,
    double constant,
    double gear,
    double wheelRadiusMetres,
    double frictionTorque,
    double rotorInertia,
    double henries,
    double viscousFriction)
    implements VehicleData.TractionData {

  /** k = K G / r, N/A and equally V per m/s. */
  double newtonsPerAmpere() {
    return constant * gear / wheelRadiusMetres;
  }

  /** F_f = T_f G / r, N at the wheel rim. */
  double frictionNewtons() {
    return frictionTorque * gear / wheelRadiusMetres;
  }

  /** b G² / r², N s/m at the wheel rim. */
  double viscousNewtons() {
    return viscousFriction * gear * gear / (wheelRadiusMetres * wheelRadiusMetres);
  }

  /** J G² / r², kg at the wheel rim. */
  double addedKg() {
    return rotorInertia * gear * gear / (wheelRadiusMetres * wheelRadiusMetres);
  }
}
