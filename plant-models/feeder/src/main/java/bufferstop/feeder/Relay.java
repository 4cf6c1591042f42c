package bufferstop.feeder;

import bufferstop.feeder.Element.Function;
import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * A protection relay: measures, decides, trips a breaker through its output contact, watches the
 * trip circuit and the breaker, latches a lockout relay, recloses.
 */
final class Relay implements ProtectiveDevice {
  private static final double NO_CURRENT = 0.05; // share of rated secondary current
  private static final long LEAST_PULSE = 100_000;
  private static final int MOST_RECORDS = 16;

  /** Its number on the cause port. */
  private static final int BREAKER_FAILURE = 2050;

  /** When the lockout relay (86) latches. */
  private enum Latches {
    NONE,
    BREAKER_FAILURE,
    EVERY_TRIP
  }

  final String name;
  final Breaker breaker;
  final Reclosing reclosing;
  final Measurement seen;
  private final Settings at;
  private final Breaker backup; // null when it has none
  private final List<Element> elements = new ArrayList<>();
  private final Happenings happenings;
  private final int[] events;
  private final long outputMicros;
  private final double outputSeconds;
  private final Latches latches;
  private final Timed tripCircuit; // null when it does not watch it
  private final Timed failure; // null without breaker-failure protection
  private final double failureAmperes;
  private final int failureEvent;
  private final int circuitEvent;
  private final int recloseEvent;
  private final int lockoutEvent;
  private final int readyEvent;
  private boolean dead; // fault
  private boolean contactBroken; // fault
  private boolean tripping;
  private long trippingFor;
  private boolean backedUp; // breaker failure has operated in this trip
  private boolean latched;
  private boolean circuitAlarm;
  private boolean resetHeld;
  private int cause; // number of the last function that tripped
  private double lastAmperes; // primary, at the last trip
  private long trips;
  private long startedMicros; // since an element picked up, before a trip
  private final double[] tripAmperes = new double[MOST_RECORDS];
  private final double[] tripSeconds = new double[MOST_RECORDS];
  private boolean trippedNow;
  private boolean wasClosed;
  private boolean idle; // nothing to decide until something changes

  Relay(String name, Settings s, Measurement seen, Breaker breaker, Breaker backup, Happenings to) {
    this.name = name;
    this.at = s;
    this.seen = seen;
    this.breaker = breaker;
    this.backup = backup;
    happenings = to;
    for (Function each : Function.values()) {
      if (s.has(each.key)) {
        elements.add(new Element(each, s.item(each.key)));
      }
    }
    reclosing = new Reclosing(s.has("reclosing") ? s.item("reclosing") : null, breaker.contactA());
    outputSeconds = s.number("output_time");
    outputMicros = Math.round(outputSeconds * 1e6);
    latches = Latches.valueOf(s.text("lockout_relay").toUpperCase(java.util.Locale.ROOT));
    tripCircuit =
        s.number("trip_circuit_delay") > 0 ? new Timed(s.number("trip_circuit_delay")) : null;
    boolean watches = s.has("breaker_failure");
    failure = watches ? new Timed(s.item("breaker_failure").number("delay")) : null;
    failureAmperes = watches ? s.item("breaker_failure").number("pick_up") : 0;
    String head = "relay." + name;
    events = new int[elements.size()];
    for (int i = 0; i < events.length; i++) {
      Function f = elements.get(i).function;
      String unit = f.isCurrent() ? "A" : f.unit();
      events[i] = to.declare(head + "." + f.key, unit, "relay " + name + " tripped on " + f.text);
    }
    failureEvent =
        to.declare(head + ".breaker_failure", "A", "relay " + name + ": breaker failure (50BF)");
    circuitEvent =
        to.declare(head + ".trip_circuit", "", "relay " + name + ": trip circuit broken (74TC)");
    recloseEvent = to.declare(head + ".reclose", "", "relay " + name + " closes its breaker, shot");
    lockoutEvent = to.declare(head + ".lockout", "", "relay " + name + " locked out (79)");
    readyEvent = to.declare(head + ".ready", "", "relay " + name + " is ready again (79)");
  }

  /** Fault: the relay has no supply. */
  void die(boolean dead) {
    this.dead = dead;
    disturb();
  }

  /** Fault: its trip contact or the wire behind it is broken. */
  void breakContact(boolean broken) {
    contactBroken = broken;
    disturb();
  }

  /** Something was done to it or its transformers from outside. */
  void disturb() {
    idle = false;
    seen.disturb();
  }

  /**
   * One step, at whose end the breaker is asked.
   *
   * @param changed whether what it measures may have changed
   * @param enabled reclosing is switched on
   */
  void step(long micros, boolean changed, boolean enabled, boolean reset) {
    if (dead) {
      return;
    }
    if (reset && !resetHeld) {
      latched = false;
      cause = 0;
    }
    resetHeld = reset;
    if (idle && !changed && breaker.idle() && breaker.contactA() == wasClosed && !latched) {
      watchTripCircuit(micros);
      return;
    }
    decide(micros);
    carryOut(micros);
    watchTripCircuit(micros);
    reclose(micros, enabled);
    wasClosed = breaker.contactA();
    idle = isIdle();
  }

  /** Nothing in it moves while measurement, breaker and commands stay. */
  boolean isIdle() {
    if (dead) {
      return true;
    }
    boolean circuitMoves =
        tripCircuit != null && circuitAlarm != (!breaker.canTrip() || contactBroken);
    if (tripping || circuitMoves || !reclosing.idle()) {
      return false;
    }
    for (int i = 0; i < elements.size(); i++) {
      if (!elements.get(i).idle()) {
        return false;
      }
    }
    return true;
  }

  private void decide(long micros) {
    boolean started = false;
    startedMicros += micros;
    for (int i = 0; i < elements.size(); i++) {
      Element each = elements.get(i);
      boolean operates = each.step(seen, micros);
      boolean allowed = !each.function.isInstantaneous() || reclosing.isFast();
      started |= each.started() && each.trips;
      if (operates && each.trips && allowed && !tripping && !breaker.contactB()) {
        trip(i);
      }
    }
    if (!started) {
      startedMicros = 0;
    }
  }

  private void trip(int i) {
    Element by = elements.get(i);
    tripping = true;
    trippingFor = 0;
    backedUp = false;
    trips++;
    cause = by.function.number;
    double value = by.function.of(seen);
    if (by.function.isCurrent()) {
      value *= seen.currentRatio;
      lastAmperes = value;
      int record = (int) ((trips - 1) % MOST_RECORDS);
      tripAmperes[record] = value;
      tripSeconds[record] = startedMicros * 1e-6;
    }
    happenings.happened(events[i], value);
    for (int k = 0; k < elements.size(); k++) {
      elements.get(k).operated();
    }
    reclosing.trip(by.function.isCurrent(), by.function.isInstantaneous());
    latched |= latches == Latches.EVERY_TRIP;
    trippedNow = true;
  }

  private boolean isOpen() {
    return breaker.contactB() && seen.most() < NO_CURRENT * seen.secondaryAmperes;
  }

  /** Trip contact, breaker failure, lockout relay. */
  private void carryOut(long micros) {
    if (tripping) {
      trippingFor += trippedNow ? 0 : micros;
      if (trippingFor >= outputMicros && !contactBroken) {
        breaker.tripByRelay(true);
      }
      boolean flows = failure != null && seen.most() > failureAmperes;
      if (failure != null && failure.hold(flows, micros) && !backedUp) {
        fail();
      }
      if (isOpen() && trippingFor >= LEAST_PULSE) {
        tripping = false;
      }
    } else if (failure != null) {
      failure.hold(false, micros);
    }
    trippedNow = false;
    if (backedUp && tripping && backup != null) {
      backup.tripByRelay(true);
    }
    if (latched || circuitAlarm) {
      breaker.block(true);
    }
  }

  private void fail() {
    backedUp = true;
    happenings.happened(failureEvent, seen.most() * seen.currentRatio);
    latched |= latches != Latches.NONE;
    reclosing.lockOut();
    cause = BREAKER_FAILURE;
  }

  private void watchTripCircuit(long micros) {
    if (tripCircuit == null) {
      return;
    }
    boolean broken = tripCircuit.hold(!breaker.canTrip() || contactBroken, micros);
    if (broken && !circuitAlarm) {
      happenings.happened(circuitEvent, 0);
    }
    circuitAlarm = broken;
    if (circuitAlarm) {
      breaker.block(true);
    }
  }

  private void reclose(long micros, boolean enabled) {
    Reclosing.State before = reclosing.state();
    if (breaker.isHeldOpen() && before == Reclosing.State.OPEN_WAIT) {
      reclosing.lockOut();
    }
    boolean live = sourceLive();
    boolean close = reclosing.step(micros, isOpen(), breaker.contactA(), live, enabled && !latched);
    if (close) {
      breaker.requestClose();
      happenings.happened(recloseEvent, reclosing.shot());
    }
    Reclosing.State now = reclosing.state();
    if (now != before && now == Reclosing.State.LOCKOUT) {
      happenings.happened(lockoutEvent, cause);
    } else if (now != before && now == Reclosing.State.READY) {
      happenings.happened(readyEvent, 0);
    }
  }

  /** 27 has not picked up on the side it looks at; without one the source counts as live. */
  private boolean sourceLive() {
    for (int i = 0; i < elements.size(); i++) {
      if (elements.get(i).function == Function.UNDERVOLTAGE) {
        return !elements.get(i).started();
      }
    }
    return true;
  }

  List<Element> elements() {
    return elements;
  }

  boolean started() {
    for (int i = 0; i < elements.size(); i++) {
      if (elements.get(i).started() && elements.get(i).trips) {
        return true;
      }
    }
    return false;
  }

  boolean tripping() {
    return tripping;
  }

  boolean latched() {
    return latched;
  }

  boolean circuitAlarm() {
    return circuitAlarm;
  }

  boolean isDead() {
    return dead;
  }

  int cause() {
    return cause;
  }

  double lastAmperes() {
    return lastAmperes;
  }

  long trips() {
    return trips;
  }

  /** How many of its trips are recorded. */
  int records() {
    return (int) Math.min(trips, MOST_RECORDS);
  }

  /** Primary current of a recorded trip; 0 when it was not on current. */
  double recordedAmperes(int record) {
    return tripAmperes[record];
  }

  /** Time from the first pick-up to a recorded trip. */
  double recordedSeconds(int record) {
    return tripSeconds[record];
  }

  @Override
  public String label() {
    return "relay " + name;
  }

  @Override
  public Settings at() {
    return at;
  }

  @Override
  public String parameter(Current of) {
    Function timed =
        of == Current.PHASE ? Function.TIME_OVERCURRENT : Function.EARTH_TIME_OVERCURRENT;
    return at.has(timed.key) ? timed.key : "breaker";
  }

  @Override
  public int branch() {
    return breaker.branch;
  }

  @Override
  public double leastAmperes(Current of) {
    double least = Double.POSITIVE_INFINITY;
    for (Element each : elements) {
      if (each.function.watches(of)) {
        least = Math.min(least, each.pickUp() * seen.currentRatio);
      }
    }
    return least;
  }

  @Override
  public double clearingSeconds(Current of, double amperes) {
    return operatingSeconds(of, amperes) + outputSeconds + breaker.breakSeconds();
  }

  /**
   * By its delayed trips: instantaneous elements that act in the first trips alone, to spare fuses,
   * do not count.
   */
  @Override
  public double operatingSeconds(Current of, double amperes) {
    double secondary = amperes / seen.currentRatio;
    double least = Double.POSITIVE_INFINITY;
    for (Element each : elements) {
      boolean counts = !each.function.isInstantaneous() || reclosing.fastTrips == Integer.MAX_VALUE;
      if (each.function.watches(of) && counts) {
        least = Math.min(least, each.seconds(secondary));
      }
    }
    return least;
  }

  void save(DataOutput to) throws IOException {
    for (boolean each :
        new boolean[] {
          dead,
          contactBroken,
          tripping,
          backedUp,
          latched,
          circuitAlarm,
          resetHeld,
          idle,
          wasClosed,
          trippedNow
        }) {
      to.writeBoolean(each);
    }
    to.writeLong(trippingFor);
    to.writeInt(cause);
    to.writeDouble(lastAmperes);
    to.writeLong(trips);
    to.writeLong(startedMicros);
    for (int i = 0; i < MOST_RECORDS; i++) {
      to.writeDouble(tripAmperes[i]);
      to.writeDouble(tripSeconds[i]);
    }
    seen.save(to);
    reclosing.save(to);
    for (Element each : elements) {
      each.save(to);
    }
    if (tripCircuit != null) {
      tripCircuit.save(to);
    }
    if (failure != null) {
      failure.save(to);
    }
  }

  void restore(DataInput from) throws IOException {
    dead = from.readBoolean();
    contactBroken = from.readBoolean();
    tripping = from.readBoolean();
    backedUp = from.readBoolean();
    latched = from.readBoolean();
    circuitAlarm = from.readBoolean();
    resetHeld = from.readBoolean();
    idle = from.readBoolean();
    wasClosed = from.readBoolean();
    trippedNow = from.readBoolean();
    trippingFor = from.readLong();
    cause = from.readInt();
    lastAmperes = from.readDouble();
    trips = from.readLong();
    startedMicros = from.readLong();
    for (int i = 0; i < MOST_RECORDS; i++) {
      tripAmperes[i] = from.readDouble();
      tripSeconds[i] = from.readDouble();
    }
    seen.restore(from);
    reclosing.restore(from);
    for (Element each : elements) {
      each.restore(from);
    }
    if (tripCircuit != null) {
      tripCircuit.restore(from);
    }
    if (failure != null) {
      failure.restore(from);
    }
  }
}
