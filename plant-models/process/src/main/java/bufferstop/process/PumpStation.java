package bufferstop.process;

import bufferstop.spi.EventSink;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.Port;
import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** One station as the host sees it. Inputs: inflow, then run and reset of each pump. */
final class PumpStation implements Plant {
  private static final int FAULTS_OF_A_PUMP = 3;

  private final double area;
  private final double depth;
  private final double lift;
  private final double mainLoss;
  private final Pump[] pumps;
  private final FloatSwitch[] floats;
  private final List<Port> inputs = new ArrayList<>();
  private final List<Port> outputs = new ArrayList<>();
  private final List<PlantFault> faults = new ArrayList<>();
  private EventSink events = (event, value) -> {};
  private boolean running;
  private double level;
  private double overflowed;
  private double surge;
  private boolean overflowing;

  PumpStation(Settings s) {
    area = s.number("area");
    depth = s.number("depth");
    lift = s.number("lift");
    mainLoss = s.number("main_loss");
    level = s.number("level");
    List<Pump> all = new ArrayList<>();
    s.named("pumps").forEach((name, p) -> all.add(new Pump(name, p)));
    pumps = all.toArray(Pump[]::new);
    List<FloatSwitch> switches = new ArrayList<>();
    s.named("floats")
        .forEach((name, f) -> switches.add(new FloatSwitch(name, f.number("on"), f.number("off"))));
    floats = switches.toArray(FloatSwitch[]::new);
    declare(s.number("inflow"));
  }

  private void declare(double inflow) {
    inputs.add(Port.quantity("inflow", "m3/s", "Inflow").orElse(inflow));
    outputs.add(Port.quantity("level", "m", "Level above the bottom"));
    outputs.add(Port.quantity("overflowed", "m3", "Run over so far"));
    for (FloatSwitch each : floats) {
      outputs.add(Port.contact("float." + each.name(), "Float switch, TRUE above its level"));
    }
    for (Pump pump : pumps) {
      String name = "pump." + pump.name;
      inputs.add(Port.contact(name + ".run", "Contactor closed"));
      inputs.add(Port.contact(name + ".reset", "Resets the overload relay").orElse(0));
      outputs.add(Port.quantity(name + ".flow", "m3/s", "Flow, below 0 when it runs back"));
      outputs.add(Port.quantity(name + ".current", "A", "Motor current"));
      outputs.add(Port.contact(name + ".healthy", "Break contact of the overload relay"));
      outputs.add(Port.contact(name + ".mirror", "Mirror contact, TRUE while energised"));
      faults.add(new PlantFault("pump_blocked." + pump.name, "", 0, 0, "the impeller is held"));
      faults.add(
          new PlantFault("valve_leaks." + pump.name, "", 0, 0, "the non-return valve stays open"));
      faults.add(
          new PlantFault("pump_worn." + pump.name, "1", 0, 1, "its head is multiplied by that"));
    }
    faults.add(new PlantFault("surge", "m3/s", 0, 1000, "that much more flows in"));
  }

  @Override
  public List<Port> inputs() {
    return List.copyOf(inputs);
  }

  @Override
  public List<Port> outputs() {
    return List.copyOf(outputs);
  }

  @Override
  public List<PlantFault> faults() {
    return List.copyOf(faults);
  }

  @Override
  public List<PlantEvent> events() {
    return List.of(new PlantEvent("overflow_began", "m3/s", "the well runs over, at this rate"));
  }

  @Override
  public void reportTo(EventSink sink) {
    events = sink;
  }

  @Override
  public void start(double[] out) {
    refuse(running, "start");
    running = true;
    for (FloatSwitch each : floats) {
      each.start(level);
    }
    show(out);
  }

  @Override
  public void step(long stepMicros, double[] in, double[] out) {
    refuse(!running, "step");
    double seconds = stepMicros * 1e-6;
    for (int i = 0; i < pumps.length; i++) {
      pumps[i].command(in[1 + 2 * i] != 0, in[2 + 2 * i] != 0);
      pumps[i].turn(seconds);
    }
    double pumped = pump(seconds);
    double net = in[0] + surge - pumped;
    level = level + net * seconds / area;
    boolean over = level > depth;
    if (over) {
      overflowed += (level - depth) * area;
      level = depth;
      if (!overflowing) {
        events.happened(0, net);
      }
    }
    overflowing = over;
    level = Math.max(0, level);
    for (FloatSwitch each : floats) {
      each.step(level);
    }
    show(out);
  }

  /**
   * Flow of all pumps into the main. Each works against lift less level, and the loss of the main
   * that all who deliver share; one whose valve leaks lets the main run back while it stands.
   */
  private double pump(double seconds) {
    double statics = lift - level;
    int delivering = 0;
    for (Pump pump : pumps) {
      delivering += pump.head() > statics ? 1 : 0;
    }
    double sum = 0;
    for (Pump pump : pumps) {
      double spare = pump.head() - statics;
      double loss = pump.headLoss + mainLoss * delivering * delivering;
      double flow = spare > 0 && level > 0 ? Math.sqrt(spare / loss) : 0;
      if (spare <= 0 && pump.leaks()) {
        flow = -Math.sqrt(-spare / (pump.headLoss + mainLoss));
      }
      pump.carry(flow, seconds);
      sum += flow;
    }
    return sum;
  }

  private void show(double[] out) {
    int n = 0;
    out[n++] = level;
    out[n++] = overflowed;
    for (FloatSwitch each : floats) {
      out[n++] = each.closed() ? 1 : 0;
    }
    for (Pump pump : pumps) {
      out[n++] = pump.flow();
      out[n++] = pump.amperes();
      out[n++] = pump.tripped() ? 0 : 1;
      out[n++] = pump.runs() ? 1 : 0;
    }
  }

  @Override
  public void fault(int fault, boolean active, double amount) {
    refuse(!running, "fault");
    if (fault == pumps.length * FAULTS_OF_A_PUMP) {
      surge = active ? amount : 0;
      return;
    }
    Pump pump = pumps[fault / FAULTS_OF_A_PUMP];
    switch (fault % FAULTS_OF_A_PUMP) {
      case 0 -> pump.block(active);
      case 1 -> pump.leak(active);
      default -> pump.wear(active ? amount : 1);
    }
  }

  @Override
  public void save(DataOutput to) throws IOException {
    refuse(!running, "save");
    to.writeDouble(level);
    to.writeDouble(overflowed);
    to.writeDouble(surge);
    to.writeBoolean(overflowing);
    for (Pump pump : pumps) {
      pump.save(to);
    }
    for (FloatSwitch each : floats) {
      each.save(to);
    }
  }

  @Override
  public void restore(DataInput from) throws IOException {
    level = from.readDouble();
    overflowed = from.readDouble();
    surge = from.readDouble();
    overflowing = from.readBoolean();
    for (Pump pump : pumps) {
      pump.restore(from);
    }
    for (FloatSwitch each : floats) {
      each.restore(from);
    }
    running = true;
  }

  @Override
  public String picture() {
    double full = 200 * level / depth;
    StringBuilder svg = new StringBuilder();
    svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"360\" height=\"280\" ")
        .append("font-family=\"sans-serif\" font-size=\"12\">\n")
        .append("<rect width=\"360\" height=\"280\" fill=\"#fbfaf7\"/>\n")
        .append(
            "<rect x=\"40\" y=\"40\" width=\"140\" height=\"200\" fill=\"none\""
                + " stroke=\"#333\"/>\n");
    svg.append(
        String.format(
            Locale.ROOT,
            "<rect x=\"40\" y=\"%.1f\" width=\"140\" height=\"%.1f\" fill=\"#9bbfd9\"/>%n"
                + "<text x=\"50\" y=\"30\">level %.3f m</text>%n",
            240 - full,
            full,
            level));
    for (int i = 0; i < pumps.length; i++) {
      svg.append(
          String.format(
              Locale.ROOT,
              "<text x=\"200\" y=\"%d\" fill=\"%s\">%s %.4f m3/s %.1f A</text>%n",
              80 + 24 * i,
              pumps[i].tripped() ? "#c0392b" : pumps[i].runs() ? "#3c8c3c" : "#333",
              pumps[i].name,
              pumps[i].flow(),
              pumps[i].amperes()));
    }
    return svg.append("</svg>\n").toString();
  }

  private void refuse(boolean outOfOrder, String method) {
    if (outOfOrder) {
      throw new IllegalStateException(
          method + " called while the station is " + (running ? "running" : "not started"));
    }
  }
}
