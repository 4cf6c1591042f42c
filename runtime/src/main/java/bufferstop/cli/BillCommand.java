package bufferstop.cli;

import bufferstop.billing.Bill;
import bufferstop.load.ScenarioLoader;
import bufferstop.model.Billing;
import bufferstop.model.Billing.Period;
import bufferstop.model.Diagnostics;
import bufferstop.model.NearNames;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.report.BillText;
import bufferstop.rig.BillingRun;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bill}: a period in virtual time, and what each consumer pays for it. */
@Command(
    name = "bill",
    description =
        "Runs a period of the project's billing in virtual time and prints the bills; exits with 1"
            + " when the energy balance gives a warning.",
    mixinStandardHelpOptions = true)
final class BillCommand implements Callable<Integer> {
  @Mixin private ProjectArgument argument;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "PERIOD",
      description = "which period (default: the first)")
  private String wanted;

  @Option(
      names = "--scenario",
      paramLabel = "FILE",
      description = "settings, seed and stimuli of this scenario act; its expectations do not")
  private Path scenario;

  @Option(
      names = "--report",
      paramLabel = "DIR",
      description = "also write the bills there, as text and as CSV")
  private Path report;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    PrintWriter err = spec.commandLine().getErr();
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = argument.plants(problems);
    Project project = argument.load(problems);
    List<Scenario> acting =
        scenario == null ? List.of() : ScenarioLoader.read(scenario, null, problems);
    boolean sound = project != null && Rig.build(project, plants, 1, problems) != null;
    if (!sound || problems.hasErrors()) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    Period period = period(project.billing(), err);
    if (period == null) {
      return Exit.NOT_LOADED;
    }
    Scenario one = acting.isEmpty() ? null : acting.get(0);
    BillingRun run = BillingRun.link(project, plants, period, one, problems);
    if (run == null) {
      Said.problems(problems, err);
      return Exit.NOT_LOADED;
    }
    return tell(run.run());
  }

  /** Null after it was said what is wrong. */
  private Period period(Billing billing, PrintWriter err) {
    List<Period> periods = billing == null ? List.of() : billing.periods();
    List<String> names = periods.stream().map(Period::name).toList();
    String said = "the project has no `billing` with periods";
    if (!periods.isEmpty()) {
      if (wanted == null) {
        return periods.get(0);
      }
      for (Period period : periods) {
        if (period.name().equalsIgnoreCase(wanted)) {
          return period;
        }
      }
      String near = NearNames.question(wanted, names);
      said = "no period named `" + wanted + "`; there are " + String.join(", ", names);
      said += near.isEmpty() ? "" : "; " + near;
    }
    err.println("bufferstop: " + said);
    err.flush();
    return null;
  }

  private int tell(BillingRun.Result result) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    if (report != null) {
      Files.createDirectories(report);
    }
    for (Bill bill : result.bills()) {
      String text = BillText.text(bill);
      out.println(text);
      if (report != null) {
        String name = bill.usage().consumer().name();
        Files.writeString(report.resolve("bill-" + name + ".txt"), text);
        Files.writeString(report.resolve("bill-" + name + ".csv"), BillText.csv(bill));
      }
    }
    boolean warned = result.balance() != null && !result.balance().warnings().isEmpty();
    if (result.balance() != null) {
      String text = BillText.text(result.balance());
      out.print(text);
      if (report != null) {
        Files.writeString(report.resolve("balance.txt"), text);
      }
    }
    if (report != null) {
      out.println("report: " + report);
    }
    out.flush();
    return warned ? Exit.NOT_PROVEN : Exit.OK;
  }
}
