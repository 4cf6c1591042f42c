package bufferstop.feeder;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A three-pole circuit-breaker: trip coil, stored-energy closing mechanism, auxiliary contacts 52a
 * and 52b, wear. A trip starts with the coil; contacts part after the opening time and the current
 * ends after the arcing time. [model rules: project choices of the reference, 2.3 and 2.4]
 */
final class Breaker {
  private enum State {
    CLOSED,
    OPENING,
    ARCING,
    OPEN,
    CLOSING
  }

  final String name;
  final int branch;
  private final Network network;
  private final Happenings happenings;
  private final long openMicros;
  private final long arcMicros;
  private final long closeMicros;
  private final long springMicros;
  private final double ratedAmperes;
  private final double ratedOperations;
  private final int opened;
  private final int closed;
  private final int refused;
  private final int interrupted;
  private State state;
  private long sinceMicros; // in this state
  private long springLeft; // until the spring is charged
  private boolean closeHeld; // anti-pumping
  private boolean closeWanted; // by the relay, for one step
  private boolean tripByRelay;
  private boolean blocked;
  private boolean coilOpen;
  private boolean stuck;
  private boolean stuckOpen;
  private boolean supplied = true;
  private boolean openedByHand; // in this step
  private double wear;
  private long operations;

  Breaker(
      String name, Settings s, int branch, Network network, Happenings happenings, boolean closed) {
    this.name = name;
    this.branch = branch;
    this.network = network;
    this.happenings = happenings;
    openMicros = micros(s.number("opening_time"));
    arcMicros = micros(s.number("arcing_time"));
    closeMicros = micros(s.number("closing_time"));
    springMicros = micros(s.number("spring_time"));
    ratedAmperes = s.number("breaking_current");
    ratedOperations = s.integer("breaking_operations");
    String head = "breaker." + name;
    opened = happenings.declare(head + ".opened", "", "breaker " + name + " opened");
    this.closed = happenings.declare(head + ".closed", "", "breaker " + name + " closed");
    refused =
        happenings.declare(
            head + ".close_refused",
            "",
            "breaker "
                + name
                + " refused to close: 1 lockout relay or trip circuit, 2 duty exceeded, spring not"
                + " charged, 3 close circuit");
    interrupted =
        happenings.declare(head + ".interrupted", "A", "breaker " + name + " broke this current");
    state = closed ? State.CLOSED : State.OPEN;
    if (!closed) {
      setPoles(true);
    }
  }

  private static long micros(double seconds) {
    return Math.round(seconds * 1e6);
  }

  private void setPoles(boolean open) {
    for (int p = 0; p < 3; p++) {
      if (open) {
        network.open(branch, p);
      } else {
        network.close(branch, p);
      }
    }
  }

  /** Fault: the trip coil or its wire is broken. */
  void breakTripCoil(boolean broken) {
    coilOpen = broken;
  }

  /** Fault: the mechanism does not open. */
  void stick(boolean stuck) {
    this.stuck = stuck;
  }

  /** Fault: the mechanism does not close. */
  void stickOpen(boolean stuck) {
    stuckOpen = stuck;
  }

  /** A relay's trip contact, held. */
  void tripByRelay(boolean trip) {
    tripByRelay |= trip;
  }

  /** A reclosing relay asks once. */
  void requestClose() {
    closeWanted = true;
  }

  /** A lockout relay or a broken trip circuit holds the close circuit open. */
  void block(boolean block) {
    blocked |= block;
  }

  /**
   * One step. What relays asked for since the last one is used up.
   *
   * @param supply whether the trip supply is there
   */
  void step(long micros, boolean supply, boolean open, boolean close) {
    supplied = supply;
    openedByHand = open;
    springLeft = Math.max(0, springLeft - micros);
    boolean trip = (open || tripByRelay) && supply && !coilOpen;
    boolean wanted = close && !closeHeld || closeWanted;
    closeHeld = close;
    sinceMicros += micros;
    switch (state) {
      case CLOSED -> {
        if (trip && !stuck) {
          enter(State.OPENING);
        }
      }
      case OPENING -> {
        if (sinceMicros >= openMicros) {
          enter(State.ARCING);
        }
      }
      case ARCING -> {
        if (sinceMicros >= arcMicros) {
          interrupt();
        }
      }
      case OPEN -> {
        if (wanted && !trip) {
          beginToClose();
        }
      }
      default -> closing(trip);
    }
    tripByRelay = false;
    closeWanted = false;
    blocked = false;
  }

  private void enter(State next) {
    state = next;
    sinceMicros = 0;
  }

  private void interrupt() {
    double most = 0;
    for (int p = 0; p < 3; p++) {
      most = Math.max(most, network.amperes(branch, p));
    }
    double share = most / ratedAmperes;
    wear += share * share / ratedOperations;
    operations++;
    setPoles(true);
    enter(State.OPEN);
    happenings.happened(opened, 0);
    happenings.happened(interrupted, most);
  }

  private void beginToClose() {
    int why = blocked ? 1 : springLeft > 0 ? 2 : stuckOpen ? 3 : 0;
    if (why > 0) {
      happenings.happened(refused, why);
      return;
    }
    springLeft = springMicros + closeMicros;
    enter(State.CLOSING);
  }

  private void closing(boolean trip) {
    if (trip && !stuck) {
      enter(State.OPEN); // trip-free
    } else if (sinceMicros >= closeMicros) {
      setPoles(false);
      enter(State.CLOSED);
      happenings.happened(closed, 0);
    }
  }

  /** 52a: closed while the breaker is closed. */
  boolean contactA() {
    return state == State.CLOSED || state == State.OPENING;
  }

  /** 52b: closed while the breaker is open. */
  boolean contactB() {
    return state == State.OPEN;
  }

  /** An operator holds it open. */
  boolean isHeldOpen() {
    return openedByHand;
  }

  /** Its trip coil could be energised. */
  boolean canTrip() {
    return supplied && !coilOpen;
  }

  boolean charged() {
    return springLeft == 0;
  }

  /** Share of its electrical life that is used up. */
  double wear() {
    return wear;
  }

  long operations() {
    return operations;
  }

  /** Nothing moves in it. */
  boolean idle() {
    return (state == State.CLOSED || state == State.OPEN) && springLeft == 0;
  }

  /** From trip to the end of the current, s. */
  double breakSeconds() {
    return (openMicros + arcMicros) * 1e-6;
  }

  void save(DataOutput to) throws IOException {
    to.writeInt(state.ordinal());
    to.writeLong(sinceMicros);
    to.writeLong(springLeft);
    for (boolean each :
        new boolean[] {
          closeHeld,
          closeWanted,
          tripByRelay,
          blocked,
          coilOpen,
          stuck,
          stuckOpen,
          supplied,
          openedByHand
        }) {
      to.writeBoolean(each);
    }
    to.writeDouble(wear);
    to.writeLong(operations);
  }

  void restore(DataInput from) throws IOException {
    state = State.values()[from.readInt()];
    sinceMicros = from.readLong();
    springLeft = from.readLong();
    closeHeld = from.readBoolean();
    closeWanted = from.readBoolean();
    tripByRelay = from.readBoolean();
    blocked = from.readBoolean();
    coilOpen = from.readBoolean();
    stuck = from.readBoolean();
    stuckOpen = from.readBoolean();
    supplied = from.readBoolean();
    openedByHand = from.readBoolean();
    wear = from.readDouble();
    operations = from.readLong();
  }
}
