package bufferstop.process;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.SplitMix64;
import bufferstop.testkit.PlantContractTest;
import bufferstop.testkit.ProblemList;
import bufferstop.testkit.SettingsOf;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The timetable: what holds when, and what every plant keeps. */
class TimetableTest extends PlantContractTest {
  private static final TimetableModel MODEL = new TimetableModel();
  private static final String SETTINGS =
      """
      weekday: fri
      time: 18:00
      columns: houses works
      rows:
        night:
          at: 00:00
          values: 0.1 0
        day:
          at: 06:30
          days: workdays
          values: 0.5 1
        evening:
          at: 20:00
          values: 0.9 -0.25
      """;

  @Override
  protected PlantModel model() {
    return MODEL;
  }

  @Override
  protected String settings() {
    return SETTINGS;
  }

  @Override
  protected void stimulate(long step, double[] in) {
    // it has no inputs; time moves it
  }

  @Override
  protected long stepMicros() {
    return 60_000_000;
  }

  private static List<String> problems(String settings) {
    ProblemList problems = new ProblemList();
    MODEL.open(SettingsOf.text(MODEL.schema(), settings), problems, new SplitMix64(1));
    return problems.all().stream().map(Object::toString).toList();
  }

  @ParameterizedTest(name = "{0} min after Friday, 18:00: {1}, {2}")
  @CsvSource({
    "0, 0.5, 1", // Friday evening
    "119, 0.5, 1",
    "120, 0.9, -0.25", // 20:00
    "359, 0.9, -0.25",
    "360, 0.1, 0", // Saturday
    "1000, 0.1, 0", // Saturday, 10:40
    "1560, 0.9, -0.25", // Saturday, 20:00
    "3629, 0.1, 0", // Monday, 06:29
    "3630, 0.5, 1", // Monday, 06:30
    "10080, 0.5, 1", // a week later
    "10200, 0.9, -0.25"
  })
  void valuesHoldFromTheirRowOn(int minutes, double houses, double works) {
    Plant plant =
        MODEL.open(SettingsOf.text(MODEL.schema(), SETTINGS), new ProblemList(), new SplitMix64(1));
    double[] out = new double[2];
    plant.start(out);
    for (int i = 0; i < minutes; i++) {
      plant.step(60_000_000, new double[0], out);
    }
    assertEquals(houses, out[0]);
    assertEquals(works, out[1]);
  }

  @Test
  void whatIsWrongWithATableIsTold() {
    assertEquals(1, problems(SETTINGS.replace("houses works", "houses houses")).size());
    assertEquals(1, problems(SETTINGS.replace("0.5 1", "0.5")).size());
    assertEquals(1, problems(SETTINGS.replace("0.5 1", "0.5 much")).size());
    assertEquals(1, problems(SETTINGS.replace("06:30", "6:30")).size());
    assertEquals(1, problems(SETTINGS.replace("18:00", "24:00")).size());
    assertEquals(7, problems(SETTINGS.replace("at: 00:00", "at: 00:01")).size());
    assertEquals(5, problems(SETTINGS.replace("06:30", "20:00")).size());
  }
}
