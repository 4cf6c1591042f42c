package bufferstop.rig;

import bufferstop.image.WriteRequest;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Point;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Pulse;
import bufferstop.model.Scenario.Ramp;
import bufferstop.model.SourceText;
import bufferstop.model.Type;
import bufferstop.plant.WireHold;
import bufferstop.scenario.Target.Prepared;
import bufferstop.st.ExpressionReader;

/** Resolves values that run their course: ramps and pulses, on operator points and on wires. */
final class CourseLinker {
  private final Rig rig;
  private final DeedLinker deeds;

  CourseLinker(Rig rig, DeedLinker deeds) {
    this.rig = rig;
    this.deeds = deeds;
  }

  Prepared prepare(Deed deed, Diagnostics problems) {
    Scenario.Place on = deed instanceof Ramp ramp ? ramp.on() : ((Pulse) deed).on();
    End end = on.wire() ? wire(on, problems) : point(on, problems);
    if (end == null) {
      return null;
    }
    return deed instanceof Ramp ramp
        ? ramp(ramp, end, problems)
        : pulse((Pulse) deed, end, problems);
  }

  /** Where a value is put in. */
  private interface End {
    Type type();

    /** Whether it takes a value of its type; if not, it is said. */
    boolean admits(long bits, Assignment given, Diagnostics problems);

    void begin(long bits);

    void change(long bits);

    void end();
  }

  private End wire(Scenario.Place on, Diagnostics problems) {
    WireHold hold = rig.field().faults().prepareHold(on.name(), problems);
    return hold == null ? null : new WireEnd(hold);
  }

  private record WireEnd(WireHold hold) implements End {
    @Override
    public Type type() {
      return hold.isBool() ? Type.BOOL : Type.LREAL;
    }

    @Override
    public boolean admits(long bits, Assignment given, Diagnostics problems) {
      return true;
    }

    private double value(long bits) {
      return hold.isBool() ? bits : Double.longBitsToDouble(bits);
    }

    @Override
    public void begin(long bits) {
      hold.begin(value(bits));
    }

    @Override
    public void change(long bits) {
      hold.change(value(bits));
    }

    @Override
    public void end() {
      hold.end();
    }
  }

  private End point(Scenario.Place on, Diagnostics problems) {
    Point point = deeds.operatorPoint(on.name(), problems);
    return point == null ? null : new PointEnd(point);
  }

  private final class PointEnd implements End {
    private final Point point;
    private final int cell;
    private long before;

    PointEnd(Point point) {
      this.point = point;
      cell = rig.layout().field().find(point.name()).index();
    }

    @Override
    public Type type() {
      return point.type();
    }

    @Override
    public boolean admits(long bits, Assignment given, Diagnostics problems) {
      return DeedLinker.admits(point, bits, given, problems);
    }

    @Override
    public void begin(long bits) {
      before = rig.engine().cells()[cell];
      change(bits);
    }

    @Override
    public void change(long bits) {
      rig.writes().offer(new WriteRequest(new int[] {cell}, new long[] {bits}, new long[1]));
    }

    @Override
    public void end() {
      change(before);
    }
  }

  private static Long literal(SourceText text, Scenario.Place on, End end, Diagnostics problems) {
    Long bits = ExpressionReader.literal(text, end.type(), problems);
    boolean good = bits != null && end.admits(bits, new Assignment(on.name(), text), problems);
    return good ? bits : null;
  }

  private static Prepared pulse(Pulse pulse, End end, Diagnostics problems) {
    if (pulse.value() == null && end.type() != Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  Code.VALUE_NOT_WANTED,
                  pulse.on().name().position(),
                  "the pulse does not say how high it is")
              .expected("`value:`, " + end.type()));
      return null;
    }
    Long bits =
        pulse.value() == null ? Long.valueOf(1) : literal(pulse.value(), pulse.on(), end, problems);
    return bits == null
        ? null
        : new Prepared() {
          @Override
          public void begin() {
            end.begin(bits);
          }

          @Override
          public long lastsMicros() {
            return pulse.forMicros();
          }

          @Override
          public void end() {
            end.end();
          }
        };
  }

  private static Prepared ramp(Ramp ramp, End end, Diagnostics problems) {
    if (end.type() == Type.BOOL) {
      problems.add(
          Diagnostic.error(
                  Code.WRONG_TYPE,
                  ramp.on().name().position(),
                  "a BOOL has nothing between its values")
              .expected("a number or a TIME"));
      return null;
    }
    Long from = literal(ramp.from(), ramp.on(), end, problems);
    Long to = literal(ramp.to(), ramp.on(), end, problems);
    return from == null || to == null ? null : new RampRun(ramp, end, from, to);
  }

  /** A ramp at work. */
  private static final class RampRun implements Prepared {
    private final Ramp ramp;
    private final End end;
    private final long from;
    private final long to;
    private boolean arrived;

    RampRun(Ramp ramp, End end, long from, long to) {
      this.ramp = ramp;
      this.end = end;
      this.from = from;
      this.to = to;
    }

    @Override
    public void begin() {
      arrived = false;
      end.begin(from);
    }

    @Override
    public void goOn(long elapsedMicros) {
      if (elapsedMicros > 0 && !arrived) {
        arrived = elapsedMicros >= ramp.overMicros();
        end.change(arrived ? to : at(elapsedMicros));
      }
    }

    private long at(long elapsedMicros) {
      double share = (double) elapsedMicros / ramp.overMicros();
      if (!end.type().isReal()) {
        return from + (long) StrictMath.rint((to - from) * share);
      }
      double low = Double.longBitsToDouble(from);
      double value = low + (Double.longBitsToDouble(to) - low) * share;
      return Double.doubleToLongBits(end.type() == Type.REAL ? (float) value : value);
    }

    @Override
    public long lastsMicros() {
      return ramp.forMicros();
    }

    @Override
    public void end() {
      end.end();
    }
  }
}
