package bufferstop.mixer;

import bufferstop.testkit.PlantBench;

/** One mixer. */
final class Bench extends PlantBench<Mixer, Bench> {
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

  Bench() {
    this(SETTINGS);
  }

  Bench(String settings) {
    super(Mixer.class, new MixerModel(), settings, 1000, 1);
  }

  @Override
  protected Bench self() {
    return this;
  }
}
