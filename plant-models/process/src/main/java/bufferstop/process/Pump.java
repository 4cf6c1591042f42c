package bufferstop.process;

import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * One pump with its motor, overload relay and non-return valve. Head at speed s: s² H0 - k Q²
 * (affinity laws). The relay's image of the motor warms with (I / I_r)² (IEC 60255-149, cold curve
 * [from memory, not re-read]) and trips where it has the warmth of the current it would just carry.
 */
final class Pump {
  final String name;
  final double headLoss;
  private final double shutOffHead;
  private final double runUp;
  private final double ratedAmperes;
  private final double ratedFlow;
  private final double idleShare;
  private final double lockedShare;
  private final double overload;
  private final double heating;
  private double speed;
  private double warmth;
  private double amperes;
  private double flow;
  private boolean tripped;
  private boolean runs;
  private boolean blocked;
  private boolean leaks;
  private double wear = 1;

  Pump(String name, Settings s) {
    this.name = name;
    shutOffHead = s.number("shut_off_head");
    headLoss = s.number("head_loss");
    runUp = s.number("run_up");
    ratedAmperes = s.number("rated_current");
    ratedFlow = s.number("rated_flow");
    idleShare = s.number("idle_share");
    lockedShare = s.number("locked_share");
    overload = s.number("overload");
    heating = s.number("heating");
  }

  /** Takes contactor and reset for the coming step. */
  void command(boolean run, boolean reset) {
    tripped &= !(reset && warmth < 1);
    runs = run && !tripped;
  }

  /** Speed after a step, exact for a constant command. */
  void turn(double seconds) {
    double target = runs && !blocked ? 1 : 0;
    double stays = runUp > 0 ? StrictMath.exp(-seconds / runUp) : 0;
    speed = target + (speed - target) * stays;
  }

  /** Head in m it can hold without flow. */
  double head() {
    return speed * speed * shutOffHead * wear;
  }

  boolean leaks() {
    return leaks;
  }

  /** Takes its flow, below 0 when it runs back, and warms. */
  void carry(double cubicMetresPerSecond, double seconds) {
    flow = cubicMetresPerSecond;
    double share = idleShare + (1 - idleShare) * Math.max(0, flow) / ratedFlow;
    amperes = !runs ? 0 : blocked ? lockedShare * ratedAmperes : share * ratedAmperes;
    double relative = amperes / ratedAmperes;
    warmth =
        relative * relative + (warmth - relative * relative) * StrictMath.exp(-seconds / heating);
    tripped |= warmth >= overload * overload;
  }

  double flow() {
    return flow;
  }

  double amperes() {
    return amperes;
  }

  boolean tripped() {
    return tripped;
  }

  boolean runs() {
    return runs;
  }

  void block(boolean on) {
    blocked = on;
  }

  void leak(boolean on) {
    leaks = on;
  }

  void wear(double share) {
    wear = share;
  }

  void save(DataOutput to) throws IOException {
    to.writeDouble(speed);
    to.writeDouble(warmth);
    to.writeDouble(amperes);
    to.writeDouble(flow);
    to.writeDouble(wear);
    to.writeBoolean(tripped);
    to.writeBoolean(runs);
    to.writeBoolean(blocked);
    to.writeBoolean(leaks);
  }

  void restore(DataInput from) throws IOException {
    speed = from.readDouble();
    warmth = from.readDouble();
    amperes = from.readDouble();
    flow = from.readDouble();
    wear = from.readDouble();
    tripped = from.readBoolean();
    runs = from.readBoolean();
    blocked = from.readBoolean();
    leaks = from.readBoolean();
  }
}
