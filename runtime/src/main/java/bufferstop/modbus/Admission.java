package bufferstop.modbus;

import bufferstop.model.Network;
import bufferstop.model.Serving.Permission;
import java.net.InetAddress;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Who may come in, and who has to leave for it. Priority clients are not closed for others nor for
 * being idle, except by a further connection from their own address. Source: Implementation Guide
 * V1.0b, 4.2.1.1, 4.2.1.2 and 4.2.3 [re-read].
 */
final class Admission {

  /** One client's connection. */
  interface Guest {

    InetAddress address();

    /** Whether a request of his is being answered. */
    boolean isBusy();

    /** When his last request was answered, or he came. */
    long lastNanos();

    /** Since when half a request, a handshake or an answer he does not read stands; 0 for none. */
    long stuckSinceNanos();

    /** Ends the connection; any thread. */
    void close();
  }

  private final ModbusServer.Limits limits;
  private final Set<Guest> guests = new LinkedHashSet<>();

  Admission(ModbusServer.Limits limits) {
    this.limits = limits;
  }

  /** Whether an address may connect at all. */
  boolean isAllowed(InetAddress address) {
    return isIn(limits.from(), address);
  }

  /** What a client that proves nothing else may do. */
  Permission permission(InetAddress address, Permission otherwise) {
    return isIn(limits.writers(), address) ? otherwise : otherwise.readOnly();
  }

  private static boolean isIn(List<Network> networks, InetAddress address) {
    byte[] bytes = address.getAddress();
    return networks.stream().anyMatch(n -> n.contains(bytes));
  }

  /**
   * Takes a new client; at a limit the one that has been idle longest gives way.
   *
   * @return FALSE when nobody can give way; then he is to be closed
   */
  synchronized boolean admit(Guest guest) {
    long sameAddress = guests.stream().filter(g -> isNeighbour(g, guest)).count();
    if (sameAddress >= limits.perAddress()) {
      closeLongestIdle(g -> isNeighbour(g, guest));
    } else if (guests.size() >= limits.connections()
        && !closeLongestIdle(g -> !isIn(limits.priority(), g.address()))) {
      return false;
    }
    return guests.add(guest);
  }

  private static boolean isNeighbour(Guest one, Guest other) {
    return one.address().equals(other.address());
  }

  private boolean closeLongestIdle(Predicate<Guest> eligible) {
    long now = System.nanoTime();
    Comparator<Guest> longestIdleFirst =
        Comparator.comparing(Guest::isBusy)
            .thenComparing(g -> now - g.lastNanos(), Comparator.reverseOrder());
    Guest leaving = guests.stream().filter(eligible).min(longestIdleFirst).orElse(null);
    if (leaving == null) {
      return false;
    }
    guests.remove(leaving);
    leaving.close();
    return true;
  }

  /** Forgets a client whose connection has ended. */
  synchronized void left(Guest guest) {
    guests.remove(guest);
  }

  /** Closes who is idle or stuck for too long; to be called now and then. */
  synchronized void sweep() {
    long now = System.nanoTime();
    for (Guest guest : List.copyOf(guests)) {
      long stuckSince = guest.stuckSinceNanos();
      boolean stuck = stuckSince != 0 && now - stuckSince >= limits.stuckNanos();
      boolean idle =
          limits.idleNanos() > 0
              && !guest.isBusy()
              && now - guest.lastNanos() >= limits.idleNanos();
      if ((stuck || idle) && !isIn(limits.priority(), guest.address())) {
        guests.remove(guest);
        guest.close();
      }
    }
  }

  /** Closes everyone. */
  synchronized void closeAll() {
    List.copyOf(guests).forEach(Guest::close);
    guests.clear();
  }

  synchronized int count() {
    return guests.size();
  }
}
