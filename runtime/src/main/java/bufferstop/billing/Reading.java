package bufferstop.billing;

/**
 * What a meter shows at one moment, in whole units: a bill counts them as the pulses of a meter, so
 * that what the rates have counted is always together what the meter has.
 *
 * @param imported Wh
 * @param exported Wh
 * @param reactive varh, lagging while importing
 * @param apparent VAh, while importing
 * @param powerFailed it has no voltage
 */
public record Reading(
    long imported, long exported, long reactive, long apparent, boolean powerFailed) {}
