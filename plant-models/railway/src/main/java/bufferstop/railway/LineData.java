package bufferstop.railway;

import bufferstop.railway.TrackData.Place;
import bufferstop.spi.Settings;
import java.util.List;

/**
 * A railway as its settings describe it, all in SI units. A record that can be at fault keeps the
 * {@link Settings} it came from, so that a problem can name its place.
 *
 * @param brakes null when brakes are not worked along the train
 */
record LineData(
    TrackData track,
    List<FeedData> feeds,
    CouplingData coupling,
    BrakesData brakes,
    List<VehicleData> vehicles,
    List<UncouplerData> uncouplers,
    List<HopperData> hoppers,
    List<DischargeData> discharges,
    List<SignalData> signals,
    List<CrossingData> crossings,
    List<ObstacleData> obstacles,
    SensorsData sensors) {

  record FeedData(
      String name,
      boolean ac,
      double volts,
      boolean returnsCurrent,
      boolean shortedWhenOff,
      double boostVolts,
      Settings at) {}

  record CouplingData(
      double gapMetres,
      double slackMetres,
      double strengthNewtons,
      double minSpeed,
      double maxSpeed,
      double restitution,
      Settings at) {}

  record BrakesData(double buildUpSeconds, boolean automatic, double adhesion) {}

  record UncouplerData(String name, Place place, double toleranceMetres, Settings at) {}

  record HopperData(
      String name,
      Place place,
      double spoutMetres,
      double stockKg,
      double gateSeconds,
      double kgPerSecond,
      Settings at) {}

  record DischargeData(String name, Place from, Place to, double kgPerSecond, Settings at) {}

  record SignalData(String name, Place place, boolean forHigh, double sighting, Settings at) {}

  record CrossingData(
      String name, Place from, Place to, double lowerSeconds, double raiseSeconds, Settings at) {}

  record ObstacleData(String name, Place place, double lengthMetres, Settings at) {}

  record SensorsData(
      List<BeamData> beams,
      List<ReedData> reeds,
      List<BlockData> blocks,
      List<CounterData> counters,
      List<ScaleData> scales,
      List<RelayData> relays) {}

  record BeamData(
      String name,
      Place place,
      boolean reflective,
      double widthMetres,
      double blockedShare,
      double clearShare,
      boolean dark,
      boolean gaps,
      ChainData chain,
      Settings at) {}

  record ReedData(
      String name,
      Place place,
      double operateMetres,
      double releaseMetres,
      double closestMetres,
      ChainData chain,
      Settings at) {}

  /** {@code relay}: a track circuit that is TRUE while clear; else a current-sensing block. */
  record BlockData(
      String name,
      boolean relay,
      double thresholdAmperes,
      double biasVolts,
      double shuntOhms,
      ChainData chain,
      Settings at) {}

  record CounterData(String name, Place place, long pulseMicros, Settings at) {}

  record ScaleData(
      String name,
      Place from,
      Place to,
      double onKg,
      double offKg,
      double timeConstant,
      ChainData chain,
      Settings at) {}

  record RelayData(
      String name, long operateMicros, long releaseMicros, long bounceMicros, Settings at) {}

  /**
   * What stands between a sensor and the wire.
   *
   * @param conditioner null when there is none
   * @param terminal null when there is none
   */
  record ChainData(
      long onMicros,
      long offMicros,
      long jitterMicros,
      double toleranceMetres,
      ConditionerData conditioner,
      TerminalData terminal) {}

  record ConditionerData(
      boolean ac,
      double volts,
      double hertz,
      double diodeDrop,
      double sourceOhms,
      double farads,
      double coilOhms,
      double pickUpVolts,
      double dropOutVolts,
      long operateMicros,
      long releaseMicros,
      long bounceMicros,
      Settings at) {}

  record TerminalData(double offBelowVolts, double onAboveVolts, double volts, double tau) {}
}
