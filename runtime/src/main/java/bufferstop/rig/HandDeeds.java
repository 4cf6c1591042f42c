package bufferstop.rig;

import bufferstop.scenario.Target.Prepared;
import java.util.ArrayList;
import java.util.List;

/**
 * Deeds done by hand, or again as they were: those that last are gone on with and ended in time.
 */
final class HandDeeds {
  private final List<Going> going = new ArrayList<>();

  private record Going(Prepared deed, long beganMicros) {}

  /** Does one before the scan that is due. */
  void begin(Prepared deed, long nextMicros) {
    deed.begin();
    going.add(new Going(deed, nextMicros));
  }

  /** Goes on with those that last; before each scan, after new ones have begun. */
  void beforeScan(long nextMicros) {
    for (int i = going.size() - 1; i >= 0; i--) {
      Going one = going.get(i);
      long elapsed = nextMicros - one.beganMicros;
      one.deed.goOn(elapsed);
      if (one.deed.lastsMicros() == 0 || elapsed >= one.deed.lastsMicros()) {
        if (one.deed.lastsMicros() > 0) {
          one.deed.end();
        }
        going.remove(i);
      }
    }
  }
}
