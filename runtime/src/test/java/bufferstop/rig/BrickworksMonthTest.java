package bufferstop.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.billing.Bill;
import bufferstop.billing.Usage;
import bufferstop.load.ProjectLoader;
import bufferstop.model.Billing.Period;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.model.Symbol;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ScenarioResult;
import bufferstop.scenario.Verdict;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A month of the works in steps of a minute: its scenarios, its bills, its energy balance. */
class BrickworksMonthTest {
  private static final Path CONFIG = Path.of("..", "configs", "brickworks-month");
  private static final Path SCENARIOS = CONFIG.resolve("scenarios");
  private static final PlantCatalog CATALOG = PlantCatalog.find(List.of(), new Diagnostics());
  private static final Project MONTH = BrickworksTest.project("brickworks-month");

  @TempDir Path folder;

  static List<Path> scenarios() throws IOException {
    try (Stream<Path> files = Files.list(SCENARIOS)) {
      return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("scenarios")
  void passesEveryScenario(Path file) {
    ScenarioResult result = BrickworksTest.run(MONTH, BrickworksTest.scenario(file));
    assertEquals(
        Verdict.PASSED, result.verdict(), () -> result.expectations() + " " + result.notes());
  }

  private static BillingRun link(Project project, String period, String scenario) {
    Period wanted =
        project.billing().periods().stream()
            .filter(p -> p.name().equals(period))
            .findFirst()
            .orElseThrow();
    Scenario acting =
        scenario == null ? null : BrickworksTest.scenario(SCENARIOS.resolve(scenario));
    Diagnostics problems = new Diagnostics();
    BillingRun run = BillingRun.link(project, CATALOG, wanted, acting, problems);
    assertNotNull(run, () -> "" + problems.sorted());
    return run;
  }

  private static BillingRun.Result bills(String period, String scenario) {
    return link(MONTH, period, scenario).run();
  }

  private static Bill.Line line(Bill bill, String what) {
    return bill.lines().stream().filter(l -> l.what().equals(what)).findFirst().orElseThrow();
  }

  /**
   * The cottages take constant power, so March is their timetable times 4 kW: 22 workdays of 8.7 h
   * at full power and 9 days of weekend of 10.52 h, worked out by hand.
   */
  @Test
  void energyOfAMonthIsThatOfTheTimetable() {
    Usage usage = bills("march", null).bills().get(1).usage();
    assertEquals(1_144_320, usage.imported(), 10);
    assertEquals(31, usage.days());
    // peak: workdays 17:00 to 20:00 in winter, up to 31 March: 2.5 h at 0.70 and 0.5 h at 0.95
    long peak = usage.parts().stream().mapToLong(p -> p.wattHours().get(2)).sum();
    assertEquals(22 * 4_000 * (2.5 * 0.70 + 0.5 * 0.95), peak, 25);
    assertEquals(List.of(28L, 3L), usage.parts().stream().map(Usage.Part::days).toList());
  }

  @Test
  void whatIsSuppliedIsMeteredOrLost() {
    BillingRun.Result result = bills("march", null);
    assertEquals(List.of(), result.balance().warnings());
    assertTrue(result.balance().supplied() > 1_800_000);
    assertTrue(result.balance().lost() > 10_000);
    // the tramway's meter is of class 1: the rest is its error
    long tramway = result.bills().get(0).usage().imported();
    assertTrue(Math.abs(result.balance().difference()) <= 0.01 * tramway + 4);
  }

  /** The bill forms its own demand from energy; the meter has a register of its own. */
  @Test
  void theDemandBilledIsTheMetersOwn() throws IOException {
    Scenario week = Scenario.NOTHING.lasting(31L * 86_400_000_000L - 1);
    Diagnostics problems = new Diagnostics();
    try (VirtualRig rig = VirtualRig.build(MONTH, CATALOG, week, problems)) {
      while (rig.nextMicros() <= week.forMicros()) {
        rig.scan();
      }
      Symbol most = rig.scope().find("works.meter.tramway.demand_most");
      double watts = Double.longBitsToDouble(rig.cells()[most.index()]);
      BigDecimal billed = line(bills("march", null).bills().get(0), "demand").quantity();
      assertEquals(watts / 1000, billed.doubleValue(), 0.004); // a watt hour in 15 min
    }
  }

  @Test
  void theRectifierPaysForItsHarmonicsAndASineOfThatPowerDoesNot() {
    Bill rectifier = bills("march", null).bills().get(0);
    Usage.Part used = rectifier.usage().parts().get(0);
    double displacement = used.imported() / Math.hypot(used.imported(), used.reactive());
    double factor = (double) used.imported() / used.apparent();
    assertTrue(displacement > 0.975, () -> "" + displacement);
    assertTrue(factor < 0.89, () -> "" + factor);
    assertTrue(line(rectifier, "power factor").amount().compareTo(new BigDecimal("5")) > 0);
    Bill sine = bills("march", "03-a-sine-load.yaml").bills().get(0);
    assertEquals("0.00", line(sine, "power factor").amount().toPlainString());
    assertEquals(
        line(rectifier, "peak").amount().doubleValue(),
        line(sine, "peak").amount().doubleValue(),
        0.15);
  }

  @Test
  void aReversedTransformerIsTold() {
    BillingRun.Result result = bills("week", "02-reversed-transformer.yaml");
    assertEquals(0, result.bills().get(0).usage().imported());
    List<String> warnings = result.balance().warnings();
    assertEquals(1, warnings.size());
    assertTrue(warnings.get(0).startsWith("`brickworks` counts "), warnings.get(0));
    assertTrue(warnings.get(0).contains("connected the wrong way round"), warnings.get(0));
  }

  /** From 13:22 to 14:02: the blocks of 13:15, 13:30, 13:45 and 14:00 are cut. */
  @Test
  void anOutageTakesItsIntervalsOutOfTheDemand() {
    Usage.Part part = bills("week", "04-outage.yaml").bills().get(0).usage().parts().get(0);
    assertEquals(4, part.flawed());
    Usage.Part whole = bills("week", null).bills().get(0).usage().parts().get(0);
    assertEquals(0, whole.flawed());
    assertTrue(part.imported() < whole.imported() - 1_000);
    assertEquals(whole.demand(), part.demand(), "another hour of that week is as high");
  }

  /** Quasi-steady loads: a second comes to what a minute comes to. */
  @Test
  void aFinerStepComesToTheSame() throws IOException {
    Path copy = folder.resolve("month");
    try (Stream<Path> files = Files.walk(CONFIG)) {
      for (Path file : (Iterable<Path>) files.filter(Files::isRegularFile)::iterator) {
        Path to = copy.resolve(CONFIG.relativize(file).toString());
        Files.createDirectories(to.getParent());
        String text = Files.readString(file);
        text =
            text.replace("scan: T#1m", "scan: T#1s")
                .replace("plant_step: T#1m", "plant_step: T#1s");
        text =
            text.replace(
                "  week:  {from: 2026-03-02, to: 2026-03-09}",
                "  week: {from: 2026-03-01, to: 2026-03-03}");
        Files.writeString(to, text);
      }
    }
    Diagnostics problems = new Diagnostics();
    Project fine = ProjectLoader.read(copy, problems);
    assertEquals(List.of(), problems.sorted());
    assertEquals(1_000_000, fine.periodMicros());
    BillingRun.Result seconds = link(fine, "week", null).run();
    Period two = fine.billing().periods().get(2);
    BillingRun.Result minutes = BillingRun.link(MONTH, CATALOG, two, null, problems).run();
    for (int i = 0; i < 2; i++) {
      long expected = seconds.bills().get(i).usage().imported();
      assertTrue(expected > 10_000);
      assertEquals(expected, minutes.bills().get(i).usage().imported(), 5e-4 * expected);
    }
    assertEquals(
        seconds.balance().lost(), minutes.balance().lost(), 5e-3 * seconds.balance().lost());
    assertEquals(List.of(), seconds.balance().warnings());
  }
}
