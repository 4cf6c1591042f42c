package bufferstop.railway;

import bufferstop.railway.TrackData.Place;
import bufferstop.spi.Problems;
import java.util.List;

/** Puts the vehicles on the track and says what is wrong with where they stand. */
final class LineCheck {
  /** Coupled vehicles may stand this far off their coupler gap, m. */
  private static final double EXACT = 1e-6;

  /** Told of a vehicle that stands so far beyond an end of the track, m; NaN when in doubt. */
  interface Beyond {
    void tell(int vehicle, double metres);
  }

  private final LineData line;
  private final Problems problems;
  private Placement placement;
  private boolean allStand = true;
  private int last = -1; // vehicle beyond the track, not yet reported
  private double lastBeyond;

  LineCheck(LineData line, Problems problems) {
    this.line = line;
    this.problems = problems;
  }

  static double[] lengths(LineData line) {
    return line.vehicles().stream().mapToDouble(VehicleData::lengthMetres).toArray();
  }

  /** Puts every vehicle where its settings say, in file order. */
  static void place(LineData line, Placement placement, Beyond beyond) {
    Track track = placement.track;
    for (int i = 0; i < line.vehicles().size(); i++) {
      VehicleData vehicle = line.vehicles().get(i);
      double over;
      boolean follows = vehicle.behind() >= 0;
      if (follows ? placement.ways(vehicle.behind()) == 0 : vehicle.start() == null) {
        over = Double.NaN; // nobody knows where it stands
      } else if (!follows) {
        Place start = vehicle.start();
        int way = start.segment() * 2 + (vehicle.facing() > 0 ? 1 : 0);
        over = placement.put(i, way, track.offset(way, start.offsetMetres()));
      } else {
        over = behind(line, placement, i);
      }
      if (!(over <= 0)) {
        beyond.tell(i, over);
      }
    }
  }

  /** Puts a vehicle behind another, coupled, facing the same way. */
  private static double behind(LineData line, Placement placement, int i) {
    VehicleData vehicle = line.vehicles().get(i);
    int front = vehicle.behind();
    int way = placement.way(front, 0) ^ 1;
    double gap = line.coupling().gapMetres();
    double along =
        placement.track.length(way) - placement.rearAlong(front) + gap + vehicle.lengthMetres() / 2;
    while (along > placement.track.length(way) && placement.track.next(way) != Track.NO_WAY) {
      along -= placement.track.length(way);
      way = placement.track.next(way);
    }
    return placement.put(i, way ^ 1, placement.track.length(way) - along);
  }

  void check() {
    Track track = new Track(line.track());
    placement = new Placement(track, lengths(line));
    place(line, placement, this::beyond);
    report();
    Stock stock = new Stock(line, placement);
    Occupancy occupancy = new Occupancy(placement, stock.count);
    occupancy.take(stock.who);
    new Rows(stock, occupancy, List.of()).link();
    for (int row = 0; row < stock.rows; row++) {
      for (int k = stock.first[row]; k < stock.last[row]; k++) {
        pair(stock, k);
      }
    }
    for (int i = 0; i < stock.count && allStand; i++) {
      coupledToNobody(stock, i);
    }
    overlaps(occupancy, track);
    traction(stock);
  }

  private void beyond(int i, double metres) {
    allStand = false;
    if (Double.isNaN(metres)) {
      return;
    }
    if (line.vehicles().get(i).behind() != last) {
      report();
    }
    last = i; // of a train the last one tells all that is too much
    lastBeyond = metres;
  }

  private void report() {
    if (last < 0) {
      return;
    }
    int i = last;
    double metres = lastBeyond;
    last = -1;
    boolean front = placement.frontBeyond(i);
    int end = front ? placement.endOfFront(i) : placement.endOfRear(i);
    if (placement.track.kind(end) == Track.Kind.NOTHING) {
      return; // the gap there was reported
    }
    VehicleData vehicle = line.vehicles().get(i);
    boolean follows = vehicle.behind() >= 0;
    problems.error(
        vehicle.at(),
        follows ? "behind" : "start",
        "`"
            + vehicle.name()
            + "` stands "
            + Names.tidy(metres)
            + " m beyond the track at `"
            + line.track().endName(end)
            + "`",
        "its body on the track",
        follows
            ? "the train is longer than its place: move its first vehicle by "
                + Names.tidy(metres)
                + " m, take vehicles away or lengthen the track"
            : "move its start by " + Names.tidy(metres) + " m, or lengthen the track");
  }

  private VehicleData vehicle(Stock stock, int k) {
    return line.vehicles().get(stock.who[k]);
  }

  private void pair(Stock stock, int k) {
    double apart = stock.couplerDistance(k);
    VehicleData low = vehicle(stock, k);
    VehicleData high = vehicle(stock, k + 1);
    boolean lowLeads = low.coupledInFront() && stock.facing[k] > 0;
    boolean highLeads = high.coupledInFront() && stock.facing[k + 1] < 0;
    VehicleData coupled = lowLeads ? low : high;
    if (lowLeads || highLeads) {
      if (Math.abs(apart) > EXACT) {
        double move = lowLeads ? apart : -apart;
        Place start = coupled.start();
        String right =
            start == null ? "" : Names.tidy(line.track().post(start) + move * coupled.facing());
        problems.error(
            coupled.at(),
            "start",
            "`"
                + coupled.name()
                + "` is to be coupled to `"
                + (lowLeads ? high : low).name()
                + "` but does not stand at it",
            right + " m",
            "set start to " + right + ", or coupled_at_start to FALSE");
      }
    } else if (apart < -EXACT
        && low.behind() != stock.who[k + 1]
        && high.behind() != stock.who[k]) {
      problems.error(
          high.at(),
          "start",
          "`" + low.name() + "` and `" + high.name() + "` share a place",
          "the coupler gap of " + line.coupling().gapMetres() + " m between their bodies",
          "move one of them by " + Names.tidy(-apart) + " m");
    }
  }

  private void coupledToNobody(Stock stock, int i) {
    int k = stock.at[i];
    int row = stock.row(k);
    boolean alone = stock.facing[k] > 0 ? k == stock.last[row] : k == stock.first[row];
    if (line.vehicles().get(i).coupledInFront() && alone) {
      problems.error(
          line.vehicles().get(i).at(),
          "coupled_at_start",
          "`" + line.vehicles().get(i).name() + "` has no neighbour in front",
          "FALSE for the first vehicle of a train",
          "couple the other one of the pair, or change their starts");
    }
  }

  /** Vehicles that overlap so far that they are no neighbours of each other. */
  private void overlaps(Occupancy occupancy, Track track) {
    for (int segment = 0; segment < track.segments; segment++) {
      for (int n = 0; n + 1 < occupancy.count(segment); n++) {
        if (occupancy.low(segment, n + 1) < occupancy.high(segment, n) - EXACT) {
          VehicleData one = line.vehicles().get(occupancy.who(segment, n));
          VehicleData other = line.vehicles().get(occupancy.who(segment, n + 1));
          boolean told = occupancy.low(segment, n + 1) > occupancy.low(segment, n);
          if (!told) {
            problems.error(
                other.at(),
                "start",
                "`" + one.name() + "` and `" + other.name() + "` share a place",
                "each vehicle on track of its own",
                "move one of them");
          }
        }
      }
    }
  }

  private void traction(Stock stock) {
    for (int i = 0; i < stock.count; i++) {
      VehicleData vehicle = line.vehicles().get(i);
      if (vehicle.loco() != null) {
        supply(vehicle);
      }
    }
  }

  private void supply(VehicleData vehicle) {
    boolean dc = vehicle.loco().traction() instanceof Motor;
    boolean ac = vehicle.loco().traction() instanceof VehicleData.SeriesData;
    boolean fits = line.feeds().stream().anyMatch(f -> dc && !f.ac() || ac && f.ac()) || !dc && !ac;
    if (!fits) {
      problems.error(
          vehicle.at(),
          dc ? "motor" : "series_motor",
          "no feed supplies the motor of `" + vehicle.name() + "`",
          "a feed with supply " + (dc ? "dc" : "ac"),
          "add one under feeds, or change its supply");
    }
  }
}
