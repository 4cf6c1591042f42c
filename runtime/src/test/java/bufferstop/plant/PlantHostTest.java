package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.model.Fault.Place;
import bufferstop.model.Symbol;
import bufferstop.model.Symbol.Kind;
import bufferstop.model.Type;
import bufferstop.rig.Rig;
import bufferstop.rig.Workbench;
import bufferstop.scenario.Target.Happening;
import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantEvent;
import bufferstop.spi.PlantFault;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlantHostTest {
  private static final String ONE =
      """
      project: One plant
      scan: T#2ms
      plants:
        p: {model: script, with: {}}
      """;

  @TempDir Path folder;

  @Test
  void showsPortsAsSymbolsWithTheirUnits() {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = p.out[1] = 1)
            .input(Port.quantity("feed.volts", "V", "").orElse(12))
            .output(Port.contact("beam.pit", "dark"))
            .output(Port.quantity("loco.speed", "m/s", ""));
    Workbench bench = Workbench.with(folder, ONE, model);
    assertPort(bench.symbol("p.feed.volts"), Type.LREAL, "V");
    assertPort(bench.symbol("p.beam.pit"), Type.BOOL, "");
    assertPort(bench.symbol("P.Loco.Speed"), Type.LREAL, "m/s");
  }

  private static void assertPort(Symbol symbol, Type type, String unit) {
    assertEquals(Kind.PLANT_PORT, symbol.kind());
    assertEquals(type, symbol.type());
    assertEquals(unit, symbol.unit());
  }

  @Test
  void givesAnUnwiredInputItsDefault() {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = p.step == 0 ? 0 : p.in[0])
            .input(Port.quantity("volts", "V", "").orElse(12))
            .output(Port.quantity("seen", "V", ""));
    Workbench bench = Workbench.with(folder, ONE, model).scan(2);
    assertEquals(12, bench.real("p.seen"));
    assertEquals(12, bench.real("p.volts"));
  }

  @Test
  void asksForAWireWhereAnInputHasNoDefault() {
    ScriptedModel model =
        new ScriptedModel("script", p -> {}).input(Port.quantity("volts", "V", ""));
    Diagnostics problems = new Diagnostics();
    Rig.build(Workbench.project(folder, ONE), PlantCatalog.of(model), 1, problems);
    assertEquals(1, problems.errors());
    assertEquals("plant input `p.volts` is not wired", problems.sorted().get(0).message());
  }

  /** Two counters that each add one to what they see of the other. */
  private List<String> chase(String plants, String wires) {
    String yaml =
        """
        project: Chase
        scan: T#2ms
        plants: {%s}
        wiring: [%s]
        """;
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = p.step == 0 ? 0 : 2 * p.in[0] + 1)
            .input(Port.quantity("in", "", "").orElse(Double.NaN))
            .output(Port.quantity("out", "", ""));
    Workbench bench = Workbench.with(folder, yaml.formatted(plants, wires), model);
    List<String> seen = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      bench.scan(1);
      seen.add(bench.real("a.out") + " " + bench.real("b.out"));
    }
    return seen;
  }

  @Test
  void letsPlantsSeeEachOthersValuesOfTheStepBefore() {
    String a = "a: {model: script, with: {}}";
    String b = "b: {model: script, with: {}}";
    String ab = "{from: a.out, to: b.in}";
    String ba = "{from: b.out, to: a.in}";
    // step 1: 1 and 1, step 2: 3 and 3; were b shown a's new value, it would be ahead
    List<String> seen = chase(a + ", " + b, ab + ", " + ba);
    assertEquals(
        List.of("3.0 3.0", "15.0 15.0", "63.0 63.0", "255.0 255.0", "1023.0 1023.0"), seen);
    assertEquals(seen, chase(b + ", " + a, ba + ", " + ab));
  }

  @Test
  void givesEachPlantAStreamByItsNameAlone() {
    String yaml =
        """
        project: Streams
        scan: T#1ms
        plants: {%s}
        """;
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = p.random.nextDouble())
            .output(Port.quantity("out", "", ""));
    String a = "a: {model: script, with: {}}";
    String b = "b: {model: script, with: {}}";
    Workbench alone = Workbench.with(folder, yaml.formatted(b), model).scan(3);
    Workbench both = Workbench.with(folder, yaml.formatted(a + ", " + b), model).scan(3);
    assertEquals(alone.real("b.out"), both.real("b.out"));
    assertTrue(both.real("a.out") != both.real("b.out"), "streams of two plants are two");
  }

  @ParameterizedTest(name = "no number at step {0}")
  @CsvSource({"0", "1", "5"})
  void endsTheRunWhenAPortIsNoNumber(long when) {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = p.step == when ? Double.NaN : 1)
            .output(Port.quantity("loco.speed", "m/s", ""));
    PlantFailure failure =
        assertThrows(
            PlantFailure.class, () -> Workbench.with(folder, ONE, model).scan(5), "no failure");
    assertEquals("plant `p` gave no number at port `loco.speed`", failure.getMessage());
  }

  @ParameterizedTest(name = "thrown at step {0}")
  @CsvSource({"0, failed at its start:", "3, failed:"})
  void endsTheRunWhenAPlantThrows(long when, String how) {
    ScriptedModel model =
        new ScriptedModel(
            "script",
            p -> {
              if (p.step == when) {
                throw new IllegalStateException("derailed");
              }
            });
    PlantFailure failure =
        assertThrows(PlantFailure.class, () -> Workbench.with(folder, ONE, model).scan(5));
    String thrown = "java.lang.IllegalStateException: derailed";
    assertEquals("plant `p` " + how + " " + thrown, failure.getMessage());
  }

  private Workbench faulty() {
    ScriptedModel model =
        new ScriptedModel(
                "script",
                p -> {
                  p.out[0] = p.amounts[0];
                  p.out[1] = p.amounts[1];
                })
            .output(Port.quantity("slip", "", ""))
            .output(Port.quantity("jam", "", ""))
            .fault(new PlantFault("slip", "m/s", 0.5, 20, "wheels slip"))
            .fault(new PlantFault("jam", "", 0, 1, "coupler jams"));
    return Workbench.with(folder, ONE, model).scan(1);
  }

  private static String amounts(Workbench bench) {
    bench.scan(1);
    return bench.real("p.slip") + " " + bench.real("p.jam");
  }

  @Test
  void setsAPlantsFaultsByNameAndAmountAndClearsThemAll() {
    Workbench bench = faulty();
    assertEquals("0.0 0.0", amounts(bench));
    assertEquals("2.5 0.0", amounts(bench.fault(Place.PLANT, "P", "Slip", "2.5", 0)));
    assertEquals("2.5 1.0", amounts(bench.fault(Place.PLANT, "p", "jam", null, 0)));
    assertEquals("0.0 0.0", amounts(bench.clear(Place.PLANT, "p")));
  }

  @ParameterizedTest(name = "{1} of {2} on {0}: {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        "p | slip | 0.4 | an amount of 0.4",
        "p | slip | 20.5 | an amount of 20.5",
        "p | skid | 1 | plant `p` has no fault `skid`",
        "q | slip | 1 | no plant named `q`",
      })
  void refusesFaultsThatThePlantDoesNotHave(String plant, String fault, String amount, String m) {
    assertEquals(List.of(m), faulty().refusal(Place.PLANT, plant, fault, amount, 0));
  }

  @Test
  void endsTheRunWhenAPlantThrowsAtItsFault() {
    PlantFailure failure =
        assertThrows(
            PlantFailure.class,
            () -> faulty().fault(Place.PLANT, "p", "slip", "" + ScriptedModel.REFUSED, 0));
    assertTrue(failure.getMessage().startsWith("plant `p` failed at its fault `slip`: "));
  }

  @Test
  void tellsEventsWithTheTimeOfTheirScan() {
    ScriptedModel model =
        new ScriptedModel(
                "script",
                p -> {
                  if (p.step == 5 || p.step == 6) {
                    p.events.happened((int) p.step - 5, 0.25);
                  }
                })
            .event(new PlantEvent("struck", "m/s", "wall struck"))
            .event(new PlantEvent("parted", "", "train parted"));
    Workbench bench = Workbench.with(folder, ONE, model).scan(10);
    // steps 5 and 6 of 1 ms belong to the third scan of 2 ms, at 4 ms
    assertEquals(
        List.of(
            new Happening(4_000, "p: wall struck 0.25 m/s"),
            new Happening(4_000, "p: train parted")),
        bench.target().lastHappenings());
  }

  /** A model whose plant breaks where told. */
  private record Broken(String where) implements PlantModel {
    @Override
    public String name() {
      return "script";
    }

    @Override
    public List<Parameter> schema() {
      return List.of();
    }

    @Override
    public Plant open(Settings settings, Problems problems, RandomStream random) {
      if (where.equals("open")) {
        throw new IllegalStateException("no rails");
      }
      return where.equals("null") ? null : new ScriptedModel("x", p -> {}).output(null).plant();
    }
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({"open, failed to open: ", "null, gave no plant", "ports, failed to tell its ports: "})
  void reportsAModelThatGivesNoUsablePlant(String where, String message) {
    Diagnostics problems = new Diagnostics();
    PlantCatalog catalog = PlantCatalog.of(new Broken(where));
    assertEquals(null, Rig.build(Workbench.project(folder, ONE), catalog, 1, problems));
    assertEquals(1, problems.errors());
    String said = problems.sorted().get(0).message();
    assertTrue(said.contains(message) && said.contains(Broken.class.getName()), said);
  }
}
