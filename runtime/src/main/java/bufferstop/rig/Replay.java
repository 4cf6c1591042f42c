package bufferstop.rig;

import bufferstop.model.Diagnostics;
import bufferstop.model.Recording;
import bufferstop.model.Recording.Event;
import bufferstop.model.Recording.Mark;
import bufferstop.retention.RetainedValue;
import bufferstop.scenario.Target.Happening;
import bufferstop.scenario.Target.Prepared;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** A recording run again, as fast as the machine allows. */
public final class Replay implements AutoCloseable {
  private final Recording recording;
  private final VirtualRig target;
  private final List<Prepared> deeds;
  private final HandDeeds hand = new HandDeeds();
  private int nextEvent;
  private int nextMark;
  private long scans;
  private long partedAt = -1;

  private Replay(Recording recording, VirtualRig target, List<Prepared> deeds) {
    this.recording = recording;
    this.target = target;
    this.deeds = deeds;
  }

  /**
   * Resolves what was done against a rig.
   *
   * @param rig of the recorded project and seed, fresh from {@link Rig#build}
   * @param trace takes the trace; null for none
   * @return null after a diagnostic
   */
  public static Replay link(
      Recording recording, Rig rig, OutputStream trace, Diagnostics problems) {
    List<RetainedValue> retained =
        recording.retained().stream()
            .map(RetainedValue::of)
            .filter(Objects::nonNull) // a damaged line shows at the first mark
            .toList();
    rig.retained().restore(rig.engine().cells(), retained, new ArrayList<>());
    VirtualRig target = new VirtualRig(rig, trace);
    List<Prepared> deeds = new ArrayList<>();
    for (Event event : recording.events()) {
      Prepared deed = target.prepare(event.deed(), problems);
      if (deed != null) {
        deeds.add(deed);
      }
    }
    return problems.hasErrors() ? null : new Replay(recording, target, deeds);
  }

  /**
   * Scans up to the end of the recording, or to a moment.
   *
   * @param untilMicros the last scan is the last one not after this
   */
  public void run(long untilMicros) {
    long last = recording.lastPeriod() * target.periodMicros();
    while (target.nextMicros() <= Math.min(last, untilMicros)) {
      long next = target.nextMicros();
      long period = next / target.periodMicros();
      while (nextEvent < deeds.size() && recording.events().get(nextEvent).period() <= period) {
        hand.begin(deeds.get(nextEvent), next);
        nextEvent++;
      }
      hand.beforeScan(next);
      target.scan();
      scans++;
      compare();
    }
  }

  private void compare() {
    long period = target.nowMicros() / target.periodMicros();
    List<Mark> marks = recording.marks();
    while (nextMark < marks.size() && marks.get(nextMark).period() < period) {
      nextMark++;
    }
    if (nextMark < marks.size() && marks.get(nextMark).period() == period) {
      boolean same = marks.get(nextMark).crc() == target.traceCrc();
      partedAt = !same && partedAt < 0 ? target.nowMicros() : partedAt;
      nextMark++;
    }
  }

  /** Logical time of the first mark at which the run was found to be another one; or negative. */
  public long partedAtMicros() {
    return partedAt;
  }

  public long scans() {
    return scans;
  }

  /** Logical time of the last scan; negative before the first. */
  public long nowMicros() {
    return target.nowMicros();
  }

  /** The image after the last scan; read only. */
  public long[] cells() {
    return target.cells();
  }

  /** What happened last. */
  public List<Happening> lastHappenings() {
    return target.lastHappenings();
  }

  /** Identity of the run so far; it ends with it. */
  public String traceSha256() {
    return target.traceSha256();
  }

  @Override
  public void close() {
    target.close();
  }
}
