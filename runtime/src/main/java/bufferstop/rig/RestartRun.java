package bufferstop.rig;

import bufferstop.model.Scenario.Restart;
import bufferstop.retention.RetainedValue;
import bufferstop.scenario.Target.Prepared;
import java.util.ArrayList;
import java.util.List;

/** The controller off for a time, then on again; nothing when it is off already. */
final class RestartRun implements Prepared {
  private final Rig rig;
  private final Restart restart;
  private List<RetainedValue> retained = List.of();
  private boolean own; // whether this one switched it off

  RestartRun(Rig rig, Restart restart) {
    this.rig = rig;
    this.restart = restart;
  }

  @Override
  public void begin() {
    own = !rig.engine().isOff();
    if (own) {
      retained = restart.cold() ? List.of() : rig.retained().take(rig.engine().cells());
      rig.engine().switchOff();
    }
  }

  @Override
  public long lastsMicros() {
    return restart.forMicros();
  }

  @Override
  public void end() {
    if (own) {
      rig.engine().switchOn(cells -> rig.retained().restore(cells, retained, new ArrayList<>()));
    }
  }
}
