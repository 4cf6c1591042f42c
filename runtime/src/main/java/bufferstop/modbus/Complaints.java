package bufferstop.modbus;

import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Logs each kind of trouble once and counts it from then on: no client can fill a disk. */
final class Complaints {
  private static final Logger LOG = LoggerFactory.getLogger(Complaints.class);

  /** What can go wrong without ending the server. */
  enum Kind {
    ACCEPT,
    ADDRESS,
    HANDSHAKE,
    STREAM,
    ANSWER
  }

  private final String map;
  private final Map<Kind, AtomicLong> counts = new EnumMap<>(Kind.class);

  Complaints(String map) {
    this.map = map;
    for (Kind kind : Kind.values()) {
      counts.put(kind, new AtomicLong());
    }
  }

  void add(Kind kind, String what, Exception cause) {
    String why = cause.getMessage() == null ? cause.toString() : cause.getMessage();
    add(kind, what + ": " + why);
    LOG.debug("modbus map `{}`: {}", map, what, cause);
  }

  void add(Kind kind, String what) {
    if (counts.get(kind).getAndIncrement() == 0) {
      LOG.warn("modbus map `{}`: {} (said once, then counted)", map, what);
    }
  }

  long count(Kind kind) {
    return counts.get(kind).get();
  }
}
