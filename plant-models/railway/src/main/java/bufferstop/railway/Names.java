package bufferstop.railway;

import bufferstop.railway.TrackData.EndUse;
import bufferstop.railway.TrackData.Place;
import bufferstop.railway.TrackData.SegmentData;
import bufferstop.spi.PartNames;
import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** Resolves what the settings name, and keeps the names of parts apart. */
final class Names {
  /** First words of ports that belong to kinds of parts or to the whole railway. */
  private static final Set<String> TAKEN =
      Set.of(
          "beam",
          "reed",
          "block",
          "counter",
          "scale",
          "relay",
          "wagon",
          "trains",
          "turnout",
          "signal",
          "crossing",
          "obstacle");

  private final Problems problems;
  private final Map<String, Integer> feeds = new TreeMap<>();
  private final Map<String, Integer> blocks = new TreeMap<>();
  private final Map<String, Integer> segments = new TreeMap<>();
  private final Map<String, String> parts = new TreeMap<>();
  private List<SegmentData> track = List.of();

  Names(Problems problems) {
    this.problems = problems;
  }

  Problems problems() {
    return problems;
  }

  /** Takes a part's name, which must be new among those whose ports begin alike. */
  void part(String kind, String prefix, String name, Settings at) {
    if (!PartNames.check(problems, at, name)) {
      return;
    }
    if (prefix.isEmpty() && TAKEN.contains(name)) {
      problems.error(
          at, name, "`" + name + "` is a word of the railway's own", "another name", "rename it");
    }
    String first = parts.putIfAbsent(prefix + name, kind);
    if (first != null) {
      problems.error(
          at,
          name,
          "`" + name + "` is the name of a " + first + " already",
          "a name of its own for each part, since its ports are called after it",
          "rename the " + kind);
    }
  }

  void feeds(Set<String> names) {
    number(feeds, names);
  }

  void blocks(Set<String> names) {
    number(blocks, names);
  }

  void segments(Set<String> names) {
    number(segments, names);
  }

  void track(List<SegmentData> all) {
    track = all;
  }

  private static void number(Map<String, Integer> map, Set<String> names) {
    for (String name : names) {
      map.put(name, map.size());
    }
  }

  int feed(Settings at) {
    return chosen(at, "feed", feeds);
  }

  int block(Settings at) {
    return chosen(at, "block", blocks);
  }

  /** What a parameter names; when left out the only one there is, or none. */
  private int chosen(Settings at, String parameter, Map<String, Integer> known) {
    String name = at.text(parameter);
    if (name.isEmpty()) {
      return known.size() == 1 ? 0 : -1;
    }
    Integer found = known.get(name);
    if (found == null) {
      unknown(at, parameter, name, parameter, known.keySet());
      return -1;
    }
    return found;
  }

  void unknown(Settings at, String parameter, String name, String kind, Set<String> known) {
    problems.error(
        at,
        parameter,
        "no " + kind + " is named `" + name + "`",
        known.isEmpty() ? "there is none" : String.join(", ", known),
        PartNames.nearest(name, known));
  }

  /** The end a parameter names, {@code NAME.low} or {@code NAME.high}. */
  EndUse end(Settings at, String parameter) {
    String text = at.text(parameter);
    int dot = text.lastIndexOf('.');
    Integer segment = dot < 0 ? null : segments.get(text.substring(0, dot));
    boolean high = text.endsWith(".high");
    if (segment == null || !high && !text.endsWith(".low")) {
      List<String> all = new ArrayList<>();
      segments.keySet().forEach(s -> all.addAll(List.of(s + ".low", s + ".high")));
      problems.error(
          at,
          parameter,
          "`" + text + "` is no end of a segment",
          "SEGMENT.low or SEGMENT.high",
          PartNames.nearest(text, all));
      return new EndUse(TrackData.NO_END, at, parameter);
    }
    return new EndUse(segment * 2 + (high ? 1 : 0), at, parameter);
  }

  /** The segment a mapping names, the only one when it names none; 0 when in doubt. */
  private int segment(Settings at, String what) {
    String name = at.text("segment");
    Integer found = segments.get(name);
    if (found != null) {
      return found;
    }
    if (!name.isEmpty()) {
      unknown(at, "segment", name, "segment", segments.keySet());
    } else if (segments.size() > 1) {
      problems.error(
          at,
          "segment",
          what + " does not say on which segment",
          String.join(", ", segments.keySet()),
          "add `segment:`");
    }
    return segments.size() == 1 && name.isEmpty() ? 0 : -1;
  }

  /**
   * The place a mapping gives by the distance post in a parameter.
   *
   * @param room how far from both ends of the segment it must be
   * @return null when the problem was reported
   */
  Place place(Settings at, String parameter, double room, String what) {
    int segment = segment(at, what);
    if (segment < 0 || track.isEmpty()) {
      return null;
    }
    SegmentData on = track.get(segment);
    double post = at.number(parameter);
    if (post < on.fromMetres() + room || post > on.toMetres() - room) {
      boolean off = post < on.fromMetres() || post > on.toMetres();
      problems.error(
          at,
          parameter,
          what
              + " at `"
              + post
              + "` is "
              + (off ? "off" : "too near to an end of")
              + " segment `"
              + on.name()
              + "`",
          tidy(on.fromMetres() + room) + " to " + tidy(on.toMetres() - room) + " m",
          off
              ? "places are distance posts: `"
                  + on.name()
                  + "` runs from its `from` over its length"
              : "it must not reach over the end: move it, or move the joint");
      return null;
    }
    return new Place(segment, post - on.fromMetres());
  }

  /** Metres to the micrometre, so that rounding does not fill the line with digits. */
  static String tidy(double value) {
    double rounded = Math.round(value * 1e6) / 1e6;
    return rounded == Math.rint(rounded) && Math.abs(rounded) < 1e9
        ? String.valueOf((long) rounded)
        : String.valueOf(rounded);
  }
}
