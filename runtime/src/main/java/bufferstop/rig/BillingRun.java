package bufferstop.rig;

import bufferstop.billing.Account;
import bufferstop.billing.Balance;
import bufferstop.billing.Balance.Metered;
import bufferstop.billing.Bill;
import bufferstop.billing.Register;
import bufferstop.billing.Usage;
import bufferstop.model.Billing;
import bufferstop.model.Billing.Period;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Scenario;
import bufferstop.plant.PlantCatalog;
import bufferstop.scenario.ScenarioRun;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;

/** Runs a project in virtual time up to the end of a period, and bills what its meters counted. */
public final class BillingRun {
  private final Billing billing;
  private final Period period;
  private final VirtualRig rig;
  private final BillingMeters meters;
  private final ScenarioRun run;
  private final List<Account> accounts = new ArrayList<>();
  private final List<Register> imported = new ArrayList<>(); // of unbilled meters
  private final List<Register> exported = new ArrayList<>();
  private final Register supplied;
  private final Register lost;

  /**
   * What came of it.
   *
   * @param bills one for each consumer
   * @param balance null where the project does not say what is supplied
   */
  public record Result(List<Bill> bills, Balance balance) {}

  /**
   * Puts a run together.
   *
   * @param scenario whose settings, seed and stimuli act; null for none
   * @return null when a problem forbids a run; all problems are reported
   */
  public static BillingRun link(
      Project project,
      PlantCatalog catalog,
      Period period,
      Scenario scenario,
      Diagnostics problems) {
    Billing billing = project.billing();
    long toMicros = billing.start().until(period.to(), ChronoUnit.MICROS);
    Scenario acting = (scenario == null ? Scenario.NOTHING : scenario).lasting(toMicros - 1);
    VirtualRig rig = VirtualRig.build(project, catalog, acting, problems);
    if (rig == null) {
      return null;
    }
    ScenarioRun run = ScenarioRun.link(acting, rig, problems);
    BillingMeters meters = BillingMeters.of(billing, rig.scope(), problems);
    return problems.hasErrors() ? null : new BillingRun(billing, period, rig, meters, run);
  }

  private BillingRun(
      Billing billing, Period period, VirtualRig rig, BillingMeters meters, ScenarioRun run) {
    this.billing = billing;
    this.period = period;
    this.rig = rig;
    this.meters = meters;
    this.run = run;
    billing.consumers().forEach(c -> accounts.add(new Account(billing, c, period)));
    for (int i = 0; i < meters.unbilled().size(); i++) {
      imported.add(new Register(billing, period));
      exported.add(new Register(billing, period));
    }
    supplied = new Register(billing, period);
    lost = new Register(billing, period);
  }

  /** Runs it; once. */
  public Result run() {
    read(0);
    rig.tellScans(() -> read(rig.nextMicros()));
    run.run();
    List<Bill> bills = new ArrayList<>();
    List<Metered> all = new ArrayList<>();
    for (Account account : accounts) {
      Usage usage = account.usage();
      bills.add(Bill.of(usage));
      long out = usage.parts().stream().mapToLong(Usage.Part::exported).sum();
      all.add(new Metered(usage.consumer().name(), usage.imported(), out, true));
    }
    for (int i = 0; i < imported.size(); i++) {
      String name = meters.unbilled().get(i).name();
      all.add(new Metered(name, imported.get(i).counted(), exported.get(i).counted(), false));
    }
    Balance balance =
        meters.supplied() < 0
            ? null
            : Balance.of(supplied.counted(), lost.counted(), all, billing.tolerancePercent());
    return new Result(List.copyOf(bills), balance);
  }

  private void read(long micros) {
    long[] cells = rig.cells();
    for (int i = 0; i < accounts.size(); i++) {
      accounts.get(i).read(micros, meters.consumers().get(i).read(cells));
    }
    for (int i = 0; i < imported.size(); i++) {
      imported.get(i).read(micros, BillingMeters.whole(cells, meters.unbilled().get(i).imported()));
      exported.get(i).read(micros, BillingMeters.whole(cells, meters.unbilled().get(i).exported()));
    }
    if (meters.supplied() >= 0) {
      supplied.read(micros, BillingMeters.whole(cells, meters.supplied()));
    }
    if (meters.lost() >= 0) {
      lost.read(micros, BillingMeters.whole(cells, meters.lost()));
    }
  }
}
