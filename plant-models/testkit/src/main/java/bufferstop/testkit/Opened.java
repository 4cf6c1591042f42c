package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.SplitMix64;
import bufferstop.testkit.ProblemList.Problem;
import java.util.List;

/** What a model makes of settings: a plant, or problems, and warnings. */
public final class Opened {
  private final Plant plant;
  private final ProblemList reported = new ProblemList();

  private Opened(PlantModel model, String settings, long seed) {
    plant = model.open(SettingsOf.text(model.schema(), settings), reported, new SplitMix64(seed));
  }

  /** Opens settings as {@link SettingsText} reads them, with the seed 1. */
  public static Opened of(PlantModel model, String settings) {
    return of(model, settings, 1);
  }

  /** Opens settings as {@link SettingsText} reads them. */
  public static Opened of(PlantModel model, String settings, long seed) {
    return new Opened(model, settings, seed);
  }

  /** The plant, which must have opened without a problem. */
  public Plant plant() {
    assertEquals(List.of(), problems(), "the settings must open without a problem");
    return plant;
  }

  /** Errors that were reported, in order. */
  public List<Problem> problems() {
    return reported.all();
  }

  /** Messages of what was warned of, in order. */
  public List<String> warnings() {
    return reported.warnings();
  }
}
