package bufferstop.feeder;

import bufferstop.feeder.Tree.Branch;
import bufferstop.feeder.Tree.Coupling;
import bufferstop.spi.Problems;
import bufferstop.spi.Settings;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * Makes the tree of a network from transformers and lines, and says what keeps it from being one.
 */
final class Shape {
  private static final double RATED_TOLERANCE = 0.2;
  private static final String SOURCE = "source impedance";

  private record Link(String name, boolean transformer, Settings at) {
    String from() {
      return at.text("from");
    }

    String to() {
      return at.text("to");
    }
  }

  private final Settings settings;
  private final Problems problems;
  private final List<Link> links = new ArrayList<>();
  private final Map<String, Integer> nodes = new LinkedHashMap<>();
  private final Map<String, Integer> branches = new LinkedHashMap<>(); // first part of each
  private final Map<String, Map<Double, Integer>> places = new LinkedHashMap<>(); // within lines
  private Tree tree;

  Shape(Settings settings, Problems problems) {
    this.settings = settings;
    this.problems = problems;
    settings.named("transformers").forEach((n, s) -> links.add(new Link(n, true, s)));
    settings.named("lines").forEach((n, s) -> links.add(new Link(n, false, s)));
  }

  /** The tree; of a network that is none, what could be reached of it. */
  Tree make() {
    tree = new Tree(settings.number("volts"));
    addSource();
    TreeSet<String> names = new TreeSet<>();
    for (Link link : links) {
      if (!names.add(link.name())) {
        problems.error(
            link.at(),
            "from",
            "`" + link.name() + "` is a transformer and a line",
            "a name of its own",
            "rename one of them");
      }
    }
    List<Link> waiting = new ArrayList<>(links);
    boolean found = true;
    while (found) {
      found = false;
      for (Link link : List.copyOf(waiting)) {
        if (nodes.containsKey(link.from())) {
          waiting.remove(link);
          add(link);
          found = true;
        }
      }
    }
    unreached(waiting);
    return tree;
  }

  private void addSource() {
    double ohms;
    double reactance;
    double volts = settings.number("volts");
    if (settings.has("generator")) {
      Settings g = settings.item("generator");
      double base = volts * volts / g.number("rating");
      ohms = base * g.number("resistance");
      reactance = base * g.number("transient_reactance");
    } else if (settings.has("grid")) {
      Settings g = settings.item("grid");
      double z = g.number("voltage_factor") * volts * volts / g.number("short_circuit_power");
      double ratio = g.number("r_over_x");
      reactance = z / Math.sqrt(1 + ratio * ratio);
      ohms = ratio * reactance;
    } else {
      ohms = 1;
      reactance = 1;
    }
    String node = settings.text("source_node");
    nodes.put(node, tree.add(new Branch(SOURCE, 0, node, ohms, reactance, 0, 0, Coupling.LINE, 1)));
  }

  private void add(Link link) {
    if (nodes.containsKey(link.to())) {
      loop(link);
      return;
    }
    int parent = nodes.get(link.from());
    nodes.put(link.to(), link.transformer() ? transformer(link, parent) : line(link, parent));
  }

  private void loop(Link link) {
    boolean self = link.from().equals(link.to());
    problems.error(
        link.at(),
        "to",
        self
            ? "`" + link.name() + "` begins and ends at `" + link.to() + "`"
            : "`" + link.name() + "` closes a loop: `" + link.to() + "` is fed already",
        "a node that nothing else feeds, since the network is radial",
        "remove `" + link.name() + "`, or let it end at a node of its own");
  }

  /**
   * Says which begin nowhere, then which feed one another; what follows from the first is silent.
   */
  private void unreached(List<Link> waiting) {
    TreeSet<String> explained = new TreeSet<>();
    List<Link> rest = new ArrayList<>();
    for (Link link : waiting) {
      if (links.stream().anyMatch(l -> l.to().equals(link.from()))) {
        rest.add(link);
      } else {
        explained.add(link.to());
        problems.error(
            link.at(),
            "from",
            "no node named `" + link.from() + "`",
            "the source's node, or one at which a line or transformer ends",
            NearName.help("node", link.from(), nodes.keySet()));
      }
    }
    while (rest.removeIf(l -> explained.contains(l.from()) && explained.add(l.to()))) {
      // until nothing more follows from what was said
    }
    for (Link link : rest) {
      if (!explained.contains(link.from())) {
        problems.error(
            link.at(),
            "from",
            "nothing feeds `" + link.from() + "`, at which `" + link.name() + "` begins",
            "a way to `" + settings.text("source_node") + "`, the source's node",
            "these lines feed one another in a circle");
      }
    }
  }

  private int transformer(Link link, int parent) {
    Settings s = link.at();
    double primary = s.number("primary");
    double nominal = tree.nominalVolts(parent);
    if (Math.abs(primary - nominal) > RATED_TOLERANCE * nominal) {
      problems.error(
          s,
          "primary",
          "transformer `" + link.name() + "` is made for another voltage: `" + primary + "`",
          "about " + Math.round(nominal) + " V, which its node has",
          "exchange primary and secondary, or feed it from another node");
    }
    double z = s.number("impedance");
    double r = s.number("resistance");
    if (r > z) {
      problems.error(
          s,
          "resistance",
          "the resistance of transformer `" + link.name() + "` exceeds its impedance",
          "at most " + z,
          "impedance is the whole short-circuit voltage, resistance a part of it");
      r = z;
    }
    double secondary = s.number("secondary");
    double base = secondary * secondary / s.number("rating");
    boolean delta = s.text("primary_winding").equals("delta");
    int node =
        tree.add(
            new Branch(
                link.name(),
                parent,
                link.to(),
                r * base,
                Math.sqrt(z * z - r * r) * base,
                0,
                0,
                delta ? Coupling.DELTA : Coupling.STAR,
                secondary / primary));
    branches.put(link.name(), node);
    return node;
  }

  /** Adds a line in as many parts as faults need places on it. */
  private int line(Link link, int parent) {
    TreeSet<Double> cuts = new TreeSet<>();
    for (Settings fault : settings.named("faults").values()) {
      double place = fault.number("place");
      if (fault.text("line").equals(link.name()) && place > 0 && place < 1) {
        cuts.add(place);
      }
    }
    Map<Double, Integer> here = new LinkedHashMap<>();
    places.put(link.name(), here);
    here.put(0.0, parent);
    double done = 0;
    int node = parent;
    for (double cut : cuts) {
      node = part(link, node, cut - done, link.name() + "@" + cut, done == 0);
      here.put(cut, node);
      done = cut;
    }
    node = part(link, node, 1 - done, link.to(), done == 0);
    here.put(1.0, node);
    return node;
  }

  private int part(Link link, int parent, double share, String to, boolean first) {
    Settings s = link.at();
    double km = s.number("length") / 1000 * share;
    double back = s.number("return_share");
    double r = s.number("resistance") * km;
    double x = s.number("reactance") * km;
    int node =
        tree.add(
            new Branch(
                first ? link.name() : link.name() + " beyond",
                parent,
                to,
                r,
                x,
                back * r,
                back * x,
                Coupling.LINE,
                1));
    if (first) {
      branches.put(link.name(), node);
    }
    return node;
  }

  /** Number of a node; -1, and a problem, when there is none of that name. */
  int node(Settings at, String parameter) {
    String name = at.text(parameter);
    Integer node = nodes.get(name);
    if (node == null && links.stream().noneMatch(l -> l.to().equals(name))) {
      problems.error(
          at,
          parameter,
          "no node named `" + name + "`",
          "the source's node, or one at which a line or transformer ends",
          NearName.help("node", name, nodes.keySet()));
    }
    return node == null ? -1 : node;
  }

  /** Number of the branch of a line or transformer; -1, and a problem, when there is none. */
  int branch(Settings at, String parameter) {
    String name = at.text(parameter);
    Integer branch = branches.get(name);
    if (branch == null && links.stream().noneMatch(l -> l.name().equals(name))) {
      Collection<String> known = links.stream().map(Link::name).toList();
      problems.error(
          at,
          parameter,
          "no line or transformer named `" + name + "`",
          "one of the network",
          NearName.help("line", name, known));
    }
    return branch == null ? -1 : branch;
  }

  /** The node of a place on a line; -1, and a problem, when there is no such line. */
  int place(Settings fault) {
    Map<Double, Integer> here = places.get(fault.text("line"));
    if (here == null) {
      if (links.stream().noneMatch(l -> !l.transformer() && l.name().equals(fault.text("line")))) {
        problems.error(
            fault,
            "line",
            "no line named `" + fault.text("line") + "`",
            "a line of the network",
            NearName.help("line", fault.text("line"), settings.named("lines").keySet()));
      }
      return -1;
    }
    return here.get(fault.number("place"));
  }

  /** Node by node, in the order of the tree, those that have a name of the user's. */
  Map<String, Integer> nodes() {
    return nodes;
  }

  Map<String, Integer> branches() {
    return branches;
  }
}
