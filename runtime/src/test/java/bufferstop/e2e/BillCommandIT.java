package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bills through the real launcher. */
class BillCommandIT {
  private static final String MONTH = "configs/brickworks-month";

  @TempDir Path folder;

  private record Ended(int status, String output) {}

  private static Ended bill(String... words) {
    List<String> all = new java.util.ArrayList<>(List.of("bill"));
    all.addAll(List.of(words));
    try (Launched run = Launched.bufferstop(all.toArray(String[]::new))) {
      int status = run.status();
      return new Ended(status, run.output());
    }
  }

  @Test
  void aMonthOfTwoConsumersIsBilledAsTextAndAsATable() throws IOException {
    Path report = folder.resolve("report");
    Ended ended = bill(MONTH, "--report", report.toString());
    assertEquals(0, ended.status, ended.output);
    assertTrue(ended.output.contains("the balance closes"), ended.output);
    for (String consumer : List.of("brickworks", "cottages")) {
      String text = Files.readString(report.resolve("bill-" + consumer + ".txt"));
      assertTrue(ended.output.contains(text.strip()), text);
      List<String> rows = Files.readAllLines(report.resolve("bill-" + consumer + ".csv"));
      assertEquals(
          "consumer,from,to,tariff,line,quantity,unit,price,exact,amount,arithmetic", rows.get(0));
      BigDecimal sum = BigDecimal.ZERO;
      for (String row : rows.subList(1, rows.size() - 1)) {
        sum = sum.add(new BigDecimal(row.split(",(?=([^\"]*\"[^\"]*\")*[^\"]*$)")[9]));
      }
      String[] total = rows.get(rows.size() - 1).split(",");
      assertEquals("total", total[4]);
      assertEquals(sum, new BigDecimal(total[9]));
      Matcher shown = Pattern.compile("total +([0-9.]+) crowns").matcher(text);
      assertTrue(shown.find(), text);
      assertEquals(total[9], shown.group(1));
    }
    assertTrue(Files.readString(report.resolve("balance.txt")).startsWith("Energy balance, kWh"));
  }

  @Test
  void theSameRunGivesTheSameBills() {
    assertEquals(bill(MONTH, "week"), bill(MONTH, "WEEK"));
  }

  @Test
  void aWarningOfTheBalanceEndsWithOne() {
    Ended ended =
        bill(MONTH, "week", "--scenario", MONTH + "/scenarios/02-reversed-transformer.yaml");
    assertEquals(1, ended.status, ended.output);
    assertTrue(ended.output.contains("warning: `brickworks` counts "), ended.output);
  }

  @Test
  void whatCannotBeBilledEndsWithTwo() {
    Ended unknown = bill(MONTH, "marsh");
    assertEquals(2, unknown.status);
    assertEquals(
        "bufferstop: no period named `marsh`; there are march, april, week; did you mean `march`?",
        unknown.output.strip());
    Ended without = bill("configs/village-feeder");
    assertEquals(2, without.status);
    assertEquals("bufferstop: the project has no `billing` with periods", without.output.strip());
    Ended broken = bill("runtime/src/test/resources/diagnostics/tariffs");
    assertEquals(2, broken.status);
    assertTrue(broken.output.contains("`1e3` is no decimal number"), broken.output);
  }

  @Test
  void theFeederBillsWhatAScenarioDoes() {
    String feeder = "configs/brickworks-feeder";
    Ended ended = bill(feeder, "--scenario", feeder + "/scenarios/01-a-haul.yaml");
    assertEquals(0, ended.status, ended.output);
    assertTrue(ended.output.contains("Bill for brickworks"), ended.output);
    assertTrue(ended.output.contains("up to 2026-03-02 06:15"), ended.output);
  }

  @Test
  void theConsoleTellsTheMetersPages() throws IOException {
    Path config = Path.of("..", "configs").toAbsolutePath();
    Path copy = folder.resolve("brickworks-feeder");
    Files.createDirectories(copy);
    String text = Files.readString(config.resolve("brickworks-feeder/project.yaml"));
    String absolute =
        text.replace("../brickworks/", config + "/brickworks/")
            .replaceAll("(: |map: )rig/", "$1" + config + "/brickworks-feeder/rig/")
            .replace("127.0.0.1:1505", "127.0.0.1:0");
    Files.writeString(copy.resolve("project.yaml"), absolute);
    try (Launched run = Launched.typing("run", copy.toString(), "--console")) {
      run.port();
      await()
          .atMost(Duration.ofSeconds(30))
          .until(
              () -> {
                run.type("status");
                return run.output().contains("works.meter.cottages.watts 4000 W");
              });
      assertTrue(run.output().contains("works.meter.tramway.power_factor 1"), run.output());
      run.type("quit");
      assertEquals(0, run.status(), run.output());
    }
  }
}
