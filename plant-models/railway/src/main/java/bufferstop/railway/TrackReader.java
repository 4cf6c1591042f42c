package bufferstop.railway;

import bufferstop.railway.TrackData.BufferData;
import bufferstop.railway.TrackData.EndUse;
import bufferstop.railway.TrackData.JointData;
import bufferstop.railway.TrackData.SegmentData;
import bufferstop.railway.TrackData.Stage;
import bufferstop.railway.TrackData.TurnoutData;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Reads the track and checks that every end of every segment leads to one thing. */
final class TrackReader {
  private final Settings settings;
  private final Names names;

  TrackReader(Settings settings, Names names) {
    this.settings = settings;
    this.names = names;
  }

  TrackData read() {
    names.feeds(settings.named("feeds").keySet());
    names.blocks(settings.named("blocks").keySet());
    names.segments(settings.named("segments").keySet());
    List<SegmentData> segments = new ArrayList<>();
    settings.named("segments").forEach((name, s) -> segments.add(segment(name, s)));
    if (segments.isEmpty()) {
      names
          .problems()
          .error(settings, "segments", "there is no track", "at least one segment", "add one");
    }
    names.track(segments);
    List<TurnoutData> turnouts = new ArrayList<>();
    settings.named("turnouts").forEach((name, s) -> turnouts.add(turnout(name, s)));
    List<BufferData> buffers = new ArrayList<>();
    settings.named("buffers").forEach((name, s) -> buffers.add(buffer(name, s)));
    TrackData track =
        new TrackData(
            segments,
            settings.list("joints").stream()
                .map(s -> new JointData(names.end(s, "from"), names.end(s, "to")))
                .toList(),
            turnouts,
            buffers,
            settings.list("open_ends").stream().map(s -> names.end(s, "at")).toList(),
            settings.number("curve_resistance"),
            settings.number("lateral_limit"));
    checkEnds(track);
    return track;
  }

  private SegmentData segment(String name, Settings s) {
    names.part("segment", "segment.", name, s);
    double limit = s.number("speed_limit");
    return new SegmentData(
        name,
        s.number("from"),
        s.number("length"),
        s.number("gradient"),
        s.number("curve_radius"),
        s.number("cant"),
        limit > 0 ? limit : settings.number("fastest"),
        s.bool("dead") ? -1 : names.feed(s),
        names.block(s),
        s);
  }

  private TurnoutData turnout(String name, Settings s) {
    names.part("turnout", "turnout.", name, s);
    return new TurnoutData(
        name,
        names.end(s, "toe"),
        names.end(s, "normal"),
        names.end(s, "reverse"),
        s.number("move_time"),
        s.number("fouling"),
        s.bool("trailable"),
        s.bool("starts_reverse"));
  }

  private BufferData buffer(String name, Settings s) {
    names.part("buffer stop", "", name, s);
    List<Stage> stages = new ArrayList<>();
    stages.add(new Stage(s.number("force"), s.number("travel")));
    s.list("stages").forEach(t -> stages.add(new Stage(t.number("force"), t.number("travel"))));
    return new BufferData(name, names.end(s, "at"), stages);
  }

  private void checkEnds(TrackData track) {
    Map<Integer, EndUse> first = new TreeMap<>();
    boolean doubtful = false;
    for (EndUse use : uses(track)) {
      doubtful |= use.end() == TrackData.NO_END;
      EndUse before = use.end() == TrackData.NO_END ? null : first.putIfAbsent(use.end(), use);
      if (before != null) {
        names
            .problems()
            .error(
                use.at(),
                use.parameter(),
                "`" + track.endName(use.end()) + "` is joined twice",
                "each end of a segment joined to one thing",
                "it is used as `" + before.parameter() + "` before; three ends meet in a turnout");
      }
    }
    List<String> loose = new ArrayList<>();
    for (int end = 0; end < track.segments().size() * 2; end++) {
      if (!first.containsKey(end)) {
        loose.add(track.endName(end));
      }
    }
    for (int end = 0; end < track.segments().size() * 2 && !doubtful; end++) {
      if (!first.containsKey(end)) {
        reportLoose(track, end, loose);
      }
    }
  }

  private void reportLoose(TrackData track, int end, List<String> loose) {
    String name = track.endName(end);
    List<String> others = loose.stream().filter(l -> !l.equals(name)).toList();
    String join = others.isEmpty() ? "" : "join it to `" + others.get(0) + "` under joints, or ";
    names
        .problems()
        .error(
            track.segments().get(end / 2).at(),
            "",
            "`" + name + "` leads nowhere: there is a gap in the track",
            "a joint, a turnout, a buffer or an open end at each end of a segment",
            join + "list it under open_ends");
  }

  /** Every use of an end, in the order of the schema. */
  private static List<EndUse> uses(TrackData track) {
    List<EndUse> all = new ArrayList<>();
    track.joints().forEach(j -> all.addAll(List.of(j.from(), j.to())));
    track.turnouts().forEach(t -> all.addAll(List.of(t.toe(), t.normal(), t.reverse())));
    track.buffers().forEach(b -> all.add(b.end()));
    all.addAll(track.openEnds());
    return all;
  }
}
