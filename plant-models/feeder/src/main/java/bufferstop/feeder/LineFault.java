package bufferstop.feeder;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A fault at one node: which conductors it joins, and when it goes away by itself. How each
 * behaviour ends is a project choice after the trade's division into permanent and temporary
 * faults.
 */
final class LineFault {
  /** What a bolted fault has, ohms. */
  private static final double BOLTED = 1e-6;

  /** A fault that carries less than this, with next to no voltage, is dead. */
  private static final double DEAD_AMPERES = 0.05;

  private static final double DEAD_VOLTS = 0.01;

  /** Shares of a drawn fault: reference section 3.5, a project choice. */
  private static final double TEMPORARY = 0.8;

  private static final double AT_FIRST = 0.85;
  private static final double AT_SECOND = 0.95;

  final FaultData data;
  final int node;
  private final double siemens;
  private final double nominalVolts;
  private final Draws draws;
  private boolean wanted; // between its onset and its end for good
  private boolean present;
  private double deadFor;
  private double liveFor; // since the line came back without it
  private double since; // its onset
  private int returned;
  private int survives; // drawn: reclosures it outlasts, -1 for all
  private double amperes;

  LineFault(FaultData data, int node, double lineVolts, Draws draws) {
    this.data = data;
    this.node = node;
    this.draws = draws;
    siemens = 1 / (data.ohms() + BOLTED);
    nominalVolts = lineVolts / Math.sqrt(3);
  }

  void set(boolean active) {
    wanted = active;
    present = active;
    deadFor = 0;
    liveFor = 0;
    since = 0;
    returned = 0;
    if (active && data.behaviour() == FaultData.Behaviour.DRAWN) {
      draw();
    }
  }

  private void draw() {
    if (draws.next() >= TEMPORARY) {
      survives = -1;
      return;
    }
    double when = draws.next();
    survives = when < AT_FIRST ? 0 : when < AT_SECOND ? 1 : 2;
  }

  /** It is, or may come back. */
  boolean wanted() {
    return wanted;
  }

  boolean present() {
    return present;
  }

  /** Current into earth or from conductor to conductor, A. */
  double amperes() {
    return amperes;
  }

  void connect(Ladder ladder) {
    if (present) {
      for (int i = 0; i < data.arms(); i++) {
        ladder.connect(node, data.from(i), data.to(i), siemens, 0);
      }
    }
  }

  /** Adds the current it draws at these voltages. */
  void draw(double[] v, double[] drawn) {
    amperes = 0;
    if (!present) {
      return;
    }
    int at = Phasors.VECTOR * node;
    for (int i = 0; i < data.arms(); i++) {
      int from = at + 2 * data.from(i);
      double x = v[from];
      double y = v[from + 1];
      if (data.to(i) >= 0) {
        x -= v[at + 2 * data.to(i)];
        y -= v[at + 2 * data.to(i) + 1];
      }
      drawn[from] += siemens * x;
      drawn[from + 1] += siemens * y;
      if (data.to(i) >= 0) {
        drawn[at + 2 * data.to(i)] -= siemens * x;
        drawn[at + 2 * data.to(i) + 1] -= siemens * y;
      }
      amperes = Math.max(amperes, siemens * Math.sqrt(x * x + y * y));
    }
  }

  /** Moves its own clock on; returns whether it came or went. */
  boolean step(double seconds, double[] v) {
    if (!wanted) {
      return false;
    }
    since += seconds;
    boolean was = present;
    boolean dead = amperes < DEAD_AMPERES && isVoltageGone(v);
    deadFor = dead ? deadFor + seconds : 0;
    switch (data.behaviour()) {
      case SELF_CLEARING -> end(since >= data.lastsSeconds() - seconds / 2);
      case ARC -> end(deadFor >= data.deadSeconds());
      case RETURNING -> comeAndGo(dead, seconds);
      case DRAWN -> {
        if (deadFor >= data.deadSeconds() && survives == 0) {
          end(true);
        } else if (deadFor > 0 && deadFor < 1.5 * seconds && survives > 0) {
          survives--; // one more opening behind it
        }
      }
      default -> {
        // permanent
      }
    }
    return present != was;
  }

  private boolean isVoltageGone(double[] v) {
    int at = Phasors.VECTOR * node;
    double most =
        Math.max(
            Phasors.square(v, at), Math.max(Phasors.square(v, at + 2), Phasors.square(v, at + 4)));
    return most < DEAD_VOLTS * DEAD_VOLTS * nominalVolts * nominalVolts;
  }

  private void end(boolean now) {
    if (now) {
      wanted = false;
      present = false;
    }
  }

  private void comeAndGo(boolean dead, double seconds) {
    if (present && deadFor >= data.deadSeconds()) {
      present = false;
      liveFor = 0;
      wanted = returned < data.returns();
    } else if (!present) {
      liveFor = dead ? 0 : liveFor + seconds;
      if (liveFor >= data.returnsAfterSeconds()) {
        present = true;
        returned++;
      }
    }
  }

  void save(DataOutput to) throws IOException {
    to.writeBoolean(wanted);
    to.writeBoolean(present);
    to.writeDouble(deadFor);
    to.writeDouble(liveFor);
    to.writeDouble(since);
    to.writeInt(returned);
    to.writeInt(survives);
    to.writeDouble(amperes);
  }

  void restore(DataInput from) throws IOException {
    wanted = from.readBoolean();
    present = from.readBoolean();
    deadFor = from.readDouble();
    liveFor = from.readDouble();
    since = from.readDouble();
    returned = from.readInt();
    survives = from.readInt();
    amperes = from.readDouble();
  }
}
