package bufferstop.mixer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Port;
import bufferstop.testkit.ProblemList;
import bufferstop.testkit.SettingsOf;
import bufferstop.testkit.SplitMix64;
import java.util.ArrayList;
import java.util.List;

/** One mixer driven by port names; starts on making. */
final class Bench {
  static final String SETTINGS =
      """
      ingredients:
        sand:
          flow: 8
          fall: 0.5
        water:
          flow: 2
          fall: 0
          travel: 0.2
      hopper:
        capacity: 50
        range: 80
        lag: 0.2
        flow: 10
      vessel:
        capacity: 60
        high: 50
        empty: 0.5
        flow: 5
      heating:
        power: 6000
        lag: 10
        loss: 20
        body: 20000
        specific: 1000
      agitator:
        speed: 4
        mixing: 15
      """;

  final Mixer plant;
  final List<String> happened = new ArrayList<>();
  private final List<String> inputs;
  private final List<String> outputs;
  private final double[] in;
  private final double[] out;

  Bench() {
    this(SETTINGS);
  }

  Bench(String settings) {
    MixerModel model = new MixerModel();
    ProblemList problems = new ProblemList();
    plant =
        (Mixer) model.open(SettingsOf.text(model.schema(), settings), problems, new SplitMix64(1));
    assertEquals(List.of(), problems.all());
    inputs = plant.inputs().stream().map(Port::name).toList();
    outputs = plant.outputs().stream().map(Port::name).toList();
    in = new double[inputs.size()];
    out = new double[outputs.size()];
    plant.reportTo((event, value) -> happened.add(plant.events().get(event).name()));
    plant.start(out);
  }

  Bench set(String input, double value) {
    in[inputs.indexOf(input)] = value;
    return this;
  }

  Bench fault(String name, boolean active) {
    List<String> names = plant.faults().stream().map(f -> f.name()).toList();
    plant.fault(names.indexOf(name), active, 0);
    return this;
  }

  double get(String output) {
    return out[outputs.indexOf(output)];
  }

  Bench run(double seconds) {
    for (long i = Math.round(seconds * 1000); i > 0; i--) {
      plant.step(1000, in, out);
    }
    return this;
  }
}
